import { useEffect, useRef } from 'react';
import { save } from './actions.ts';
import { useBench, useNotice } from './workbench.ts';

/** Asks before something would be lost: the one window that stops everything else. */
export function Asking() {
  const bench = useBench();
  const { notices } = bench;
  const asking = useNotice((state) => state.asking);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (asking !== undefined) dialog.current?.showModal();
  }, [asking]);
  if (asking === undefined) return null;
  const stay = (): void => notices.setState({ asking: undefined });
  const { title, says, choices, save: afterSaving } = asking;
  return (
    <dialog className="asking" ref={dialog} aria-labelledby="asking-title" onClose={stay}>
      <h2 id="asking-title">{title}</h2>
      <p className="soft">{says}</p>
      <div className="group">
        {afterSaving === undefined ? null : (
          <button
            type="button"
            className="button strong"
            onClick={() => {
              void save(bench).then((saved) => {
                if (!saved) return;
                stay();
                afterSaving();
              });
            }}
          >
            Save first
          </button>
        )}
        {choices.map(({ label, strong, run }) => (
          <button
            key={label}
            type="button"
            className={strong === true ? 'button strong' : 'button'}
            onClick={() => {
              stay();
              run();
            }}
          >
            {label}
          </button>
        ))}
        <button type="button" className="button" onClick={stay}>
          Stay here
        </button>
      </div>
    </dialog>
  );
}
