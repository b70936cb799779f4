import { useEffect } from 'react';
import { useBench } from '../app/workbench.ts';

/** What can be done with bands and strips besides looking at them. */
export function RecordTools() {
  const { notices } = useBench();
  // Loaded ahead: who asks for one of them goes on typing at once.
  useEffect(() => {
    for (const part of [import('../app/Palette.tsx'), import('./Chooser.tsx')]) part.catch(() => undefined);
  }, []);
  return (
    <>
      <button
        type="button"
        title="Draw any recorded quantity as a line below (I)"
        onClick={() => notices.setState({ adding: true })}
      >
        add a line
      </button>
      <button
        type="button"
        title="Bands, strips and lines as tables, to be copied or saved as CSV (U)"
        onClick={() => notices.setState({ table: 'bands' })}
      >
        tables
      </button>
    </>
  );
}
