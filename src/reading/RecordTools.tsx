import { useBench } from '../app/workbench.ts';

/** What can be done with bands and strips besides looking at them. */
export function RecordTools() {
  const { notices } = useBench();
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
