import { scaleWords, type UnitSystem, unitSystems } from '../../shared/units.ts';
import { useBench, useDesk, useSettings } from './workbench.ts';

/** Units in a few words, for names of actions. */
export const unitsWords: Readonly<Record<UnitSystem, string>> = {
  builder: 'mm, N/mm and degrees',
  si: 'SI units',
  inch: 'inches and pounds',
};

const short: Readonly<Record<UnitSystem, string>> = { builder: 'mm', si: 'SI', inch: 'in' };

/** In which units figures are shown, and whether a model's are scaled up; the document keeps what it is written in. */
export function UnitsButton() {
  const { settings } = useBench();
  const units = useSettings((state) => state.units);
  const wanted = useSettings((state) => state.fullSize);
  const scale = useDesk(({ drawn }) => drawn?.scenario.vehicle.scale) ?? 1;
  const fullSize = wanted && scale !== 1;
  return (
    <>
      <button
        type="button"
        className="button"
        popoverTarget="units"
        data-on={fullSize}
        title={`Figures in ${unitsWords[units]}${fullSize ? ', at full size' : ''}. Change`}
      >
        <span className="unseen">Figures in </span>
        {short[units]}
        {fullSize ? `, ${scaleWords(scale)} full size` : ''}
      </button>
      <div id="units" className="menu units" popover="auto" role="dialog" aria-label="Figures">
        <fieldset>
          <legend>Figures are shown in</legend>
          {unitSystems.map(({ id, title }) => (
            <label key={id} className="check">
              <input
                type="radio"
                name="units"
                checked={units === id}
                onChange={() => settings.setState({ units: id })}
              />
              {title}
            </label>
          ))}
        </fieldset>
        {scale === 1 ? null : (
          <label className="check">
            <input
              type="checkbox"
              checked={wanted}
              onChange={({ currentTarget }) => settings.setState({ fullSize: currentTarget.checked })}
            />
            Full size of this {scaleWords(scale)} model, by Froude's rule
          </label>
        )}
        <p className="soft">Figures of the document stay as they are written.</p>
      </div>
    </>
  );
}
