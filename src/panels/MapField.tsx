import { useEffect, useRef } from 'react';
import { type Showing, showQuantity } from '../../shared/units.ts';
import type { Stretch } from '../../sim/studies/planes.ts';
import { usePivotMap } from '../app/onVehicle.ts';
import { useLook } from '../app/theme.ts';
import { mapChart } from '../canvas/map/chart.ts';
import { pixelsOf } from '../canvas/map/pixels.ts';
import { figure } from '../charts/figures.ts';
import { palettes } from '../charts/palette.ts';
import type { Mapped } from '../runs/mapping.ts';

/** The picture's proportions: the two sides have no common scale. */
const [ACROSS, DOWN] = [1.5, 1] as const;

const shareOf = ({ from, to }: Stretch, value: number): number => (value - from) / (to - from);

/** Where something lies on the picture, per cent of its sides. */
const placeOf = ({ x, z }: Mapped['plane'], at: { x: number; z: number }) => ({
  left: `${100 * shareOf(x, at.x)}%`,
  bottom: `${100 * shareOf(z, at.z)}%`,
});

const words = ({ knob }: Stretch, value: number, showing: Showing): string =>
  showQuantity(value, knob.dimension, showing);

/** A map whose two sides are no place on the drawing: an arm's length and height, a bar's thickness and preload. */
export function MapField({ mapped }: { readonly mapped: Mapped }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const { theme, showing } = useLook();
  const map = usePivotMap('any');
  const { plane, best } = mapped;
  const { x, z } = plane;
  useEffect(() => {
    const draw = canvas.current?.getContext('2d');
    if (canvas.current === null || draw === null || draw === undefined || map === null) return;
    const tiles = map.tiles.map((tile) => ({ ...tile, from: { x: 0, z: 0 }, to: { x: ACROSS, z: DOWN } }));
    const chart = mapChart({ ...map, tiles }, palettes[theme]);
    if (chart === undefined) return;
    const { width, height, data } = pixelsOf(chart, palettes[theme]);
    Object.assign(canvas.current, { width, height });
    draw.putImageData(new ImageData(data, width, height), 0, 0);
    draw.strokeStyle = palettes[theme].accent;
    draw.lineWidth = 3;
    for (const line of chart.region) {
      draw.beginPath();
      for (let i = 0; i + 1 < line.length; i += 2)
        draw.lineTo(((line[i] ?? 0) / ACROSS) * width, (1 - (line[i + 1] ?? 0) / DOWN) * height);
      draw.stroke();
    }
  }, [map, theme]);
  const found = best === undefined || best.value === null ? undefined : best;
  const spoken =
    found === undefined || map === null
      ? 'Map, still empty'
      : `Map of ${map.title} over ${x.knob.name} and ${z.knob.name}; best ${figure(found.value ?? 0, map.shown)} ${map.shown.unit}`;
  return (
    <figure className="map-field">
      <div className="map-picture" role="img" aria-label={spoken}>
        <canvas ref={canvas} />
        <span className="today" style={placeOf(plane, { x: x.knob.now, z: z.knob.now })} />
        {found === undefined ? null : <span className="best-place" style={placeOf(plane, found)} />}
      </div>
      <figcaption className="soft">
        Across: {x.knob.name}, {words(x, x.from, showing)} to {words(x, x.to, showing)}. Up: {z.knob.name},{' '}
        {words(z, z.from, showing)} to {words(z, z.to, showing)}. Ring: today; dot: best; outlined: where
        everything asked for holds.
      </figcaption>
    </figure>
  );
}
