import { useLayoutEffect, useState } from 'react';
import { useBench } from '../app/workbench.ts';
import type { Look } from '../solved.ts';
import { DriveStrip } from './DriveStrip.tsx';

/** The drive line of the run on show, with the way to its ledger. */
export function RunStrip({ look }: { readonly look: Look }) {
  const { sight, stage, settings } = useBench();
  const [picture, setPicture] = useState<HTMLElement | null>(null);
  useLayoutEffect(() => setPicture(stage.element), [stage]);
  return (
    <DriveStrip
      look={look}
      sight={sight}
      picture={picture}
      tools={() => (
        <button
          type="button"
          className="button small"
          title="All that could end the crossing, the nearest to its limit first"
          onClick={() => settings.setState({ panel: 'ledger' })}
        >
          Ledger
        </button>
      )}
    />
  );
}
