import type { MethodKind } from '../../sim/searching/method.ts';
import { methodKinds } from '../../sim/searching/registry.ts';
import { useOffers } from '../panels/measureChoice.tsx';
import type { GoalDraft, StudyDraft } from './draft.ts';
import type { Tuning } from './session.ts';

interface Props {
  readonly tuning: Tuning;
  readonly study: StudyDraft;
}

const usual = 'leastLoadShare';

/** What is wanted more or less; the first decides, a second makes a trade-off. */
export function Goals({ tuning, study }: Props) {
  const offers = useOffers();
  const goals = study.goals ?? [{ measure: usual }];
  const all = [...offers, { text: 'mass', title: 'mass of the vehicle' }];
  const put = (next: readonly GoalDraft[]) => tuning.write({ ...study, goals: next });
  const change = (index: number, goal: GoalDraft) => put(goals.map((each, i) => (i === index ? goal : each)));
  return (
    <section className="measure">
      <h3>What is wanted</h3>
      {goals.map((goal, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a goal is its place in the list.
        <div className="picker goal" key={index}>
          <select
            aria-label={`Goal ${index + 1}: more or less`}
            value={goal.want ?? ''}
            onChange={({ currentTarget: { value } }) => {
              const { want: _, ...rest } = goal;
              change(index, value === '' ? rest : { ...rest, want: value as 'more' | 'less' });
            }}
          >
            <option value="">better</option>
            <option value="more">more</option>
            <option value="less">less</option>
          </select>
          <select
            className="wide"
            aria-label={`Goal ${index + 1}: measure`}
            value={goal.measure}
            onChange={({ currentTarget: { value } }) => change(index, { measure: value })}
          >
            {all.some(({ text }) => text === goal.measure) ? null : (
              <option value={goal.measure}>{goal.measure}</option>
            )}
            {all.map(({ text, title }) => (
              <option key={text} value={text}>
                {title}
              </option>
            ))}
          </select>
          {goals.length < 2 ? null : (
            <button
              type="button"
              className="button small bare"
              aria-label={`Take goal ${index + 1} away`}
              title="Take away"
              onClick={() => put(goals.filter((_, i) => i !== index))}
            >
              ×
            </button>
          )}
        </div>
      ))}
      {goals.length >= 2 ? null : (
        <button
          type="button"
          className="button small"
          onClick={() =>
            put([...goals, { measure: all.find(({ text }) => text !== goals[0]?.measure)?.text ?? usual }])
          }
        >
          Add a second goal
        </button>
      )}
    </section>
  );
}

/** The effort that a way to search takes, by the name of its option. */
const efforts = ['designs', 'effort'] as const;

/** How designs are chosen. */
export function Method({ tuning, study }: Props) {
  const kinds = methodKinds as readonly unknown[] as readonly MethodKind[];
  const kind = kinds.find((each) => each.kind === study.method.kind);
  const effort = efforts.find((name) => kind !== undefined && name in kind.fields.shape);
  return (
    <section className="measure">
      <h3>How to search</h3>
      <div className="picker">
        <select
          className="wide"
          aria-label="Method"
          value={study.method.kind}
          onChange={({ currentTarget: { value } }) => tuning.write({ ...study, method: { kind: value } })}
        >
          {kinds.map((each) => (
            <option key={each.kind} value={each.kind}>
              {each.title}
            </option>
          ))}
        </select>
        {effort === undefined ? null : (
          <label className="effort">
            <span>designs</span>
            <input
              type="number"
              min={1}
              max={1_000_000}
              placeholder="usual"
              value={typeof study.method[effort] === 'number' ? study.method[effort] : ''}
              onChange={({ currentTarget: { value } }) => {
                const { [effort]: _, ...rest } = study.method;
                tuning.write({
                  ...study,
                  method: {
                    ...rest,
                    kind: study.method.kind,
                    ...(value === '' ? {} : { [effort]: Number(value) }),
                  },
                });
              }}
            />
          </label>
        )}
      </div>
    </section>
  );
}
