import type { Vec2 } from '../../shared/geometry/vec.ts';
import { pathText } from '../../shared/path.ts';
import type { Shape } from './shapes.ts';

interface MarksProps {
  readonly shapes: readonly Shape[];
  readonly look: 'selected' | 'under' | 'broken';
}

const pathOf = (line: readonly Vec2[]): string =>
  line.map(({ x, z }, i) => `${i === 0 ? 'M' : 'L'}${x} ${z}`).join('');

/** Entries that stand out on the picture: what is selected, what is under the pointer, what cannot be as it is drawn. In metres. */
export function Marks({ shapes, look }: MarksProps) {
  return (
    <g className="marks" data-look={look}>
      {shapes.map((shape) => (
        <g key={pathText(shape.entry)}>
          {shape.lines.map((line) => (
            <path key={pathOf(line)} d={pathOf(line)} />
          ))}
          {shape.discs.map(({ at, radius }) => (
            <circle key={`${at.x} ${at.z}`} cx={at.x} cy={at.z} r={radius} />
          ))}
          {look === 'broken'
            ? null
            : shape.spots.map(({ x, z }) => (
                <path key={`${x} ${z}`} className="mark-spot" d={`M${x} ${z}h0`} />
              ))}
        </g>
      ))}
    </g>
  );
}
