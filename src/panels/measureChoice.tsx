import { useMemo } from 'react';
import { type Choice, chooseMeasure, measuresOfCrossings, usualChoice } from '../../sim/studies/choice.ts';
import { useBench, useDesk, useSettings } from '../app/workbench.ts';

/** Names of measures where no report has told their titles yet: 'leastLoadShare' → 'least load share'. */
const plainTitle = (name: string): string => name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

export interface Offer {
  readonly text: string;
  readonly title: string;
}

/** What studies may look at: the measures of the run on show that a crossing in balance has, and the criteria. */
export function useOffers(): readonly Offer[] {
  const measures = useDesk(({ solved }) => solved?.report.measures);
  const asks = useDesk(({ drawn }) => drawn?.asks);
  return useMemo(() => {
    const titles = new Map((measures ?? []).map(({ name, title }) => [name, title]));
    const names = Object.keys(measuresOfCrossings).filter((name) => name === usualChoice || titles.has(name));
    return [
      ...names.map((text) => ({ text, title: titles.get(text) ?? plainTitle(text) })),
      ...(asks ?? []).map((title, index) => ({ text: `criteria[${index}]`, title })),
    ];
  }, [measures, asks]);
}

/** The measure that is chosen; the usual one where the document does not have it. */
export function useChoice(): Choice | undefined {
  const text = useSettings((state) => state.measure);
  const scenario = useDesk(({ drawn }) => drawn?.scenario);
  return useMemo(() => {
    if (scenario === undefined) return undefined;
    const chosen = chooseMeasure(text, scenario);
    const usual = chooseMeasure(usualChoice, scenario);
    return chosen.ok ? chosen.value : usual.ok ? usual.value : undefined;
  }, [text, scenario]);
}

/** Chooses what studies look at. */
export function MeasurePicker() {
  const { settings } = useBench();
  const choice = useChoice();
  const offers = useOffers();
  if (choice === undefined) return null;
  const known = offers.some(({ text }) => text === choice.text);
  return (
    <label className="picker">
      <span>Measure</span>
      <select
        value={choice.text}
        onChange={({ currentTarget }) => settings.setState({ measure: currentTarget.value })}
      >
        {known ? null : <option value={choice.text}>{plainTitle(choice.text)}</option>}
        {offers.map(({ text, title }) => (
          <option key={text} value={text}>
            {title}
          </option>
        ))}
      </select>
    </label>
  );
}
