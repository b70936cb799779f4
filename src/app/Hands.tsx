import { useMemo } from 'react';
import { pivotsOf } from '../../sim/studies/pivots.ts';
import { pivotKnobs } from '../../sim/studies/planes.ts';
import { Handles } from '../canvas/Handles.tsx';
import type { Handle } from '../canvas/handles/handle.ts';
import type { Pin } from '../runs/pivotDrag.ts';
import type { Look, Solved } from '../solved.ts';
import { useBench, useDesk, useDrag } from './workbench.ts';

/** A pin with the handle that it is moved by. */
interface Held extends Pin {
  readonly handle: Handle;
}

/** The pins that may be dragged: those that are fixed to the chassis. */
function usePins(solved: Solved | null): readonly Held[] {
  const scenario = useDesk(({ drawn }) => drawn?.scenario);
  const bodies = solved?.mechanism.bodies;
  return useMemo(() => {
    if (bodies === undefined || scenario === undefined) return [];
    return pivotsOf(scenario)
      .filter(({ on }) => on === 'chassis')
      .map((pivot) => {
        const { name, kind, on, at } = pivot;
        const body = Math.max(
          0,
          bodies.findIndex((each) => each.name === on),
        );
        const handle = { id: name, label: kind === 'pivot' ? `${name}: pivot` : name, body, at };
        return { name, at, ...pivotKnobs(scenario, pivot), handle };
      });
  }, [bodies, scenario]);
}

/** What may be dragged on the picture, in the modes that answer at once. */
export function Hands({ solved, look }: { readonly solved: Solved | null; readonly look: Look }) {
  const { sight, drag, notices } = useBench();
  const pins = usePins(solved);
  const { held, shown, why } = useDrag();
  const handles = useMemo(
    () =>
      pins.map(({ handle }) =>
        handle.id === held && shown !== undefined ? { ...handle, at: shown } : handle,
      ),
    [pins, held, shown],
  );
  const move = (id: string, at: Handle['at']): void => {
    const pin = pins.find(({ name }) => name === id);
    if (pin !== undefined) drag.move(pin, at);
  };
  return (
    <Handles
      solved={solved}
      sight={sight}
      handles={handles}
      problem={held === undefined || why === undefined ? null : { id: held, says: why }}
      look={look}
      onMove={move}
      onKeep={(id, at) => {
        move(id, at);
        drag.keep();
      }}
      onCancel={() => drag.restore()}
      onPick={(picked) => notices.setState({ picked })}
      onSay={(said) => notices.setState({ said })}
    />
  );
}
