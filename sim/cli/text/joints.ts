import type { JointReport } from '../../../shared/report.ts';
import { clean } from './clean.ts';
import { figure } from './figures.ts';
import type { Style } from './style.ts';
import { type Column, table } from './table.ts';

const columns: readonly Column[] = [
  { head: 'part', align: 'left' },
  { head: 'of', align: 'left' },
  { head: 'what', align: 'left' },
  { head: 'greatest', align: 'right' },
  { head: 'of one', align: 'right' },
  { head: 'in the drawing', align: 'left' },
  { head: 'vehicle', align: 'left' },
];

/** One force per row: in which joint or member, how great, where. A part is named in its first row only. */
export function jointLines(joints: readonly JointReport[], style: Style): string[] {
  if (joints.length === 0) return [];
  const rows = joints.map((joint, i) => {
    const { part, of, value, unit, each, at, moment } = joint;
    const before = joints[i - 1];
    const again = before?.part === part && before.of === of;
    return [
      again ? '' : part,
      again ? '' : clean(of),
      wordOf(joint),
      figure(Math.abs(value), unit),
      each === undefined ? '' : figure(Math.abs(each), unit),
      at === undefined ? '' : `at x ${figure(at.x, 'm')}, z ${figure(at.z, 'm')}`,
      `at ${figure(moment.station, 'm')}`,
    ];
  });
  const used = columns.map((_, c) => rows.some((row) => row[c] !== ''));
  const [head = '', ...lines] = table(
    columns.filter((_, c) => used[c]),
    rows.map((row) => row.filter((_, c) => used[c])),
  );
  return [style.faint(head), ...lines];
}

/** An axial force is told as a pull or a push, so that no sign has to be read. */
function wordOf({ quantity, value }: JointReport): string {
  if (quantity === 'axial') return value < 0 ? 'push' : 'pull';
  return quantity === 'stress' ? 'shear stress' : quantity;
}
