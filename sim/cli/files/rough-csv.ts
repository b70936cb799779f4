import { cell, nineDigits } from '../../../shared/csv.ts';
import type { Estimate } from '../../rough/segments.ts';
import type { RoughReport } from '../rough-report.ts';

const three = ({ value, low, high }: Estimate): string[] => [value, low, high].map(nineDigits);
const heads = (name: string, unit: string): string[] =>
  [name, `${name} low`, `${name} high`].map((head) => `${head} (${unit})`);

/** Figures of rough ground, one line per speed and axle line; low and high are the ends of 95 % intervals. SI. */
export function roughCsv({ speeds }: RoughReport): string {
  const head = [
    'speed (m/s)',
    'holds',
    'time (s)',
    'way (m)',
    'segments',
    ...heads('RMS acceleration', 'm/s²'),
    'wheel',
    'mean load (N)',
    ...heads('RMS load', 'N'),
    ...heads('load coefficient', '1'),
    ...heads('time off', '1'),
    ...heads('lift-offs', '1/km'),
  ];
  const lines = speeds.flatMap(({ speed, holds, figures }) =>
    (figures?.wheels ?? []).map((wheel) =>
      [
        nineDigits(speed),
        holds ? 1 : 0,
        nineDigits(figures?.time ?? 0),
        nineDigits(figures?.way ?? 0),
        figures?.segments.count ?? 0,
        ...(figures === null ? [] : three(figures.acceleration)),
        cell(wheel.wheel),
        nineDigits(wheel.load),
        ...three(wheel.loadRms),
        ...three(wheel.coefficient),
        ...three(wheel.off),
        ...three(wheel.liftOffs),
      ].join(','),
    ),
  );
  return `${[head.map(cell).join(','), ...lines].join('\n')}\n`;
}

/** Spectra, one line per speed and frequency. SI. */
export function spectraCsv({ speeds }: RoughReport): string {
  const wheels =
    speeds.find(({ spectra }) => spectra !== null)?.spectra?.loads.map(({ wheel }) => wheel) ?? [];
  const head = [
    'speed (m/s)',
    'frequency (Hz)',
    'acceleration ((m/s²)²/Hz)',
    ...wheels.map((wheel) => `load[${wheel}] (N²/Hz)`),
  ];
  const lines = speeds.flatMap(({ speed, spectra }) =>
    (spectra?.frequency ?? []).map((frequency, k) =>
      [
        speed,
        frequency,
        spectra?.acceleration[k] ?? 0,
        ...(spectra?.loads ?? []).map(({ density }) => density[k] ?? 0),
      ]
        .map(nineDigits)
        .join(','),
    ),
  );
  return `${[head.map(cell).join(','), ...lines].join('\n')}\n`;
}
