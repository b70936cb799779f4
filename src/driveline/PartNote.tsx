import type { ReactNode } from 'react';
import type { LedgerLine } from '../../shared/report.ts';
import { formatShare } from '../../shared/units.ts';
import type { DrivePart } from '../../sim/driveline/driveline.ts';
import { type Figures, useFigures } from '../app/workbench.ts';
import { shareWords } from './look.ts';
import type { TreePart } from './tree.ts';
import type { Now, Worst } from './uses.ts';

interface PartNoteProps {
  readonly part: TreePart;
  /** As it was built in the run on show. */
  readonly built: DrivePart | undefined;
  readonly now: Now | undefined;
  readonly worst: Worst | undefined;
  readonly broken: string | undefined;
  /** px from the left of the strip. */
  readonly x: number;
  readonly width: number;
}

/** Width of the note, px. */
const WIDE = 272;
/** How far it stays from the column of its part, px. */
const ASIDE = 44;

const known: Readonly<Record<NonNullable<LedgerLine['how']>, string>> = {
  given: 'given',
  measured: 'measured',
  estimate: 'estimate',
  typical: 'typical, test yours',
};

/** 'given', 'estimate ± 30 %'. */
export function knownWords({ how, spread }: Pick<LedgerLine, 'how' | 'spread'>): string {
  if (how === undefined) return '';
  return spread !== undefined && spread > 0 ? `${known[how]} ± ${formatShare(spread, 2)}` : known[how];
}

function ratingWords({ law, rating }: DrivePart, now: Now | undefined, { quantity }: Figures): string {
  const torque = (value: number) => quantity(value, 'torque');
  if (law.motor !== undefined) return `${torque(now?.limit ?? law.motor.stallTorque)} at standstill, given`;
  if (rating === undefined) return 'unknown: never taken for safe';
  return `${torque(rating.torque)}, ${knownWords(rating)}`;
}

/** Ripple of a cardan joint: greatest torque in a turn over its mean. */
function rippleWords({ peak, torqueOut }: Now): string {
  const mean = Math.abs(torqueOut);
  return mean > 0 ? `+ ${formatShare(peak / mean - 1, 2)} in a turn` : '–';
}

function rowsOf(
  { law, count }: DrivePart,
  built: DrivePart,
  now: Now | undefined,
  figures: Figures,
): readonly (readonly [string, string])[] {
  const { quantity } = figures;
  const torque = (value: number) => quantity(value, 'torque');
  const angle = (value: number) => quantity(value, 'angle');
  const rows: (readonly [string, string])[] = [];
  if (count > 1) rows.push(['of ONE of', String(count)]);
  if (now !== undefined) {
    if (built.inputs.length > 0) rows.push(['torque in', torque(now.torqueIn)]);
    rows.push(['torque out', torque(now.torqueOut)]);
    rows.push(['speed out', quantity(Math.abs(now.speed), 'spin')]);
  }
  rows.push(['rating', ratingWords(built, now, figures)]);
  if (now?.angle !== undefined) {
    const most = now.mostAngle === undefined ? '' : ` of ${angle(now.mostAngle)}`;
    rows.push(['angle', Number.isNaN(now.angle) ? 'not known' : `${angle(now.angle)}${most}`]);
    if (!Number.isNaN(now.limit)) rows.push(['carries there', torque(now.limit)]);
  }
  if (now !== undefined && now.peak > 1.0005 * Math.abs(now.torqueOut))
    rows.push(['ripple', rippleWords(now)]);
  if (now?.current !== undefined)
    rows.push(['current', Number.isNaN(now.current) ? 'not known' : quantity(now.current, 'current')]);
  if (law.ratio !== 1)
    rows.push(['ratio', `${Number(law.ratio.toPrecision(3))}, passes ${formatShare(law.driving, 3)}`]);
  return rows;
}

const Row = ({ label, children }: { readonly label: string; readonly children: ReactNode }) => (
  <div>
    <dt>{label}</dt>
    <dd>{children}</dd>
  </div>
);

/** Figures of the part under the pointer or the keyboard, over the foot of the picture. */
export function PartNote({ part, built, now, worst, broken, x, width }: PartNoteProps) {
  const figures = useFigures();
  // Beside the part, so that what it is on the picture stays in sight.
  const after = x + ASIDE;
  const before = x - ASIDE - WIDE;
  const left = after + WIDE <= width - 8 ? after : Math.max(8, before);
  return (
    <div className="drive-note" style={{ left, width: WIDE }}>
      <p className="drive-note-name">
        {part.name} <span className="soft">{part.title}</span>
      </p>
      {broken === undefined ? null : <p className="drive-note-wrong">{broken}</p>}
      <dl>
        {built === undefined
          ? null
          : rowsOf(built, built, now, figures).map(([label, words]) => (
              <Row key={label} label={label}>
                {words}
              </Row>
            ))}
        {now === undefined ? null : <Row label="use here">{shareWords(now.use)}</Row>}
        {worst === undefined ? null : (
          <Row label="at its worst">
            {shareWords(worst.use)}
            {worst.line.quantity === 'angle' ? ' of its angle' : ''}
            {worst.line.moment === undefined
              ? ''
              : ` at ${figures.quantity(worst.line.moment.station, 'length')}`}
          </Row>
        )}
      </dl>
    </div>
  );
}
