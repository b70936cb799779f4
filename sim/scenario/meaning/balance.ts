import { formatQuantity } from '../../../shared/units.ts';
import type { WholeCheck } from './check.ts';

/** The centre of gravity lies between the outermost hubs; otherwise the vehicle tips over on level ground. */
export const vehicleBalances: WholeCheck = ({ mechanism }, problems) => {
  const hubs = mechanism.wheels.map((w) => w.hub.x);
  const [rear, front] = [Math.min(...hubs), Math.max(...hubs)];
  const { x } = mechanism.cg;
  const slack = 1e-9 * mechanism.size;
  if (x >= rear - slack && x <= front + slack) return;
  const where = x < rear ? 'behind the rearmost' : 'ahead of the foremost';
  problems.error(
    'vehicle.masses',
    `put the centre of gravity at x = ${formatQuantity(x, 'length', 4)}, ${where} wheel: the vehicle cannot stand`,
    `it must lie between ${formatQuantity(rear, 'length', 4)} and ${formatQuantity(front, 'length', 4)}`,
  );
};
