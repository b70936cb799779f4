import type { Picture } from './record.ts';

const pointsOf = (line: readonly number[]): string => {
  const pairs: string[] = [];
  for (let i = 0; i + 1 < line.length; i += 2) pairs.push(`${line[i]},${-(line[i + 1] ?? 0)}`);
  return pairs.join(' ');
};

/** A small picture of a vehicle, in the colours of the theme. */
export function Thumbnail({ picture }: { readonly picture: Picture | undefined }) {
  if (picture === undefined) return <svg className="thumbnail" aria-hidden="true" />;
  const [x, z, width, height] = picture.box;
  const edge = 0.04 * Math.max(width, height);
  const box = [x - edge, -(z + height) - edge, width + 2 * edge, height + 2 * edge].join(' ');
  return (
    <svg className="thumbnail" viewBox={box} aria-hidden="true">
      {picture.covers.map((line) => (
        <polyline key={line.join()} className="cover" points={pointsOf(line)} />
      ))}
      {picture.wheels.map(([wx, wz, radius]) => (
        <circle key={`${wx} ${wz}`} cx={wx} cy={-wz} r={radius} />
      ))}
      {picture.lines.map((line) => (
        <polyline key={line.join()} className="arm" points={pointsOf(line)} />
      ))}
    </svg>
  );
}
