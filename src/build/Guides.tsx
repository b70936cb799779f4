import type { Snapped } from '../edits/snap.ts';

/** Length of a guide that runs along a level or an upright, m: beyond any picture of a vehicle. */
const FAR = 1000;

/** What a snap has caught on: another point, or the level or upright through one. In metres. */
export function Guides({ caught }: { readonly caught: Snapped }) {
  const { at, to, with: other } = caught;
  if (to === undefined || to === 'grid') return null;
  const level = to === 'level' ? `M${-FAR} ${at.z}H${FAR}` : '';
  const upright = to === 'upright' ? `M${at.x} ${-FAR}V${FAR}` : '';
  const link = other === undefined ? '' : `M${at.x} ${at.z}L${other.x} ${other.z}`;
  return (
    <g className="guides" data-to={to}>
      <path d={`${level}${upright}${link}`} />
      {other === undefined ? null : <path className="mark-spot" d={`M${other.x} ${other.z}h0`} />}
    </g>
  );
}
