import { useEffect, useRef } from 'react';
import { save } from './actions.ts';
import { useBench, useDocument, useNotice } from './workbench.ts';

/** Asks before unsaved edits are thrown away: the one window that stops everything else. */
export function Asking() {
  const bench = useBench();
  const { notices } = bench;
  const asking = useNotice((state) => state.asking);
  const name = useDocument((state) => state.name);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (asking !== undefined) dialog.current?.showModal();
  }, [asking]);
  if (asking === undefined) return null;
  const stay = (): void => notices.setState({ asking: undefined });
  const leave = (): void => {
    stay();
    asking.proceed();
  };
  return (
    <dialog className="asking" ref={dialog} aria-labelledby="asking-title" onClose={stay}>
      <h2 id="asking-title">{name} has unsaved edits</h2>
      <p className="soft">Opening another scenario throws them away.</p>
      <div className="group">
        <button
          type="button"
          className="button strong"
          onClick={() => {
            void save(bench).then((saved) => {
              if (saved) leave();
            });
          }}
        >
          Save first
        </button>
        <button type="button" className="button" onClick={leave}>
          Throw away
        </button>
        <button type="button" className="button" onClick={stay}>
          Stay here
        </button>
      </div>
    </dialog>
  );
}
