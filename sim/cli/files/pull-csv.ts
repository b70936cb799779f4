import { nineDigits } from '../../../shared/csv.ts';
import type { PerformancePoint } from '../../driveline/performance.ts';

/** Full throttle over speed as CSV, in SI; what is not known is left empty. */
export function pullCsv(line: readonly PerformancePoint[]): string {
  const known = (value: number | null) => (value === null ? '' : nineDigits(value));
  const lines = line.map(({ speed, thrust, power, voltage, current, efficiency }) =>
    [speed, thrust, power, voltage, current, efficiency].map(known).join(','),
  );
  const head = 'speed (m/s),thrust (N),power at the wheels (W),battery (V),battery (A),efficiency (1)';
  return `${[head, ...lines].join('\n')}\n`;
}
