import { figure, type Shown } from '../../charts/figures.ts';
import type { Palette } from '../../charts/palette.ts';
import type { Handle } from './handle.ts';
import type { Hold } from './hold.ts';
import { moveInWords } from './steps.ts';

interface NoteProps {
  readonly keep: (element: Element | null) => void;
  readonly handle: Handle;
  readonly hold: Hold | undefined;
  readonly shown: Shown;
  /** Why it cannot be there. */
  readonly problem: string | undefined;
  readonly palette: Palette;
}

/** Words beside a handle: what it is, where it is, how far it has moved, and why it cannot be there. */
export function Note({ keep, handle, hold, shown, problem, palette }: NoteProps) {
  const at = hold?.at ?? handle.at;
  return (
    <div
      className="handle-note"
      ref={keep}
      aria-hidden="true"
      style={{ background: palette.raised, borderColor: palette.hair, color: palette.ink }}
    >
      <p className="handle-name">{handle.label}</p>
      <table>
        <tbody>
          {(['x', 'z'] as const).map((axis) => (
            <tr key={axis}>
              <th style={{ color: palette.soft }}>{axis}</th>
              <td>
                {figure(at[axis], shown)} {shown.unit}
              </td>
              <td className="handle-by" style={{ color: palette.soft }}>
                {hold !== undefined && moveInWords(at[axis] - hold.handle.at[axis], shown)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {problem !== undefined && (
        <p className="handle-problem" style={{ color: palette.lowInk }}>
          <strong>Cannot be there.</strong> {problem}
        </p>
      )}
    </div>
  );
}
