import { useEffect, useState } from 'react';
import { Icon } from '../app/Icon.tsx';
import { useBench, useKeeping } from '../app/workbench.ts';

/** How long a message stays, ms; one with something to do or to copy longer; under the pointer or the focus until left. */
const STAY = 6000;
const STAY_TO_ACT = 15_000;

/** A short message at the foot of the window. */
export function ToastView() {
  const { keeping } = useBench();
  const toast = useKeeping((state) => state.toast);
  const [held, hold] = useState(false);
  useEffect(() => {
    if (toast === undefined || held) return undefined;
    const long = toast.action !== undefined || toast.text !== undefined;
    const id = setTimeout(() => keeping.setState({ toast: undefined }), long ? STAY_TO_ACT : STAY);
    return () => clearTimeout(id);
  }, [toast, held, keeping]);
  if (toast === undefined) return null;
  const close = (): void => {
    hold(false);
    keeping.setState({ toast: undefined });
  };
  const { says, text, action } = toast;
  return (
    <div
      className="toast"
      role="status"
      onPointerEnter={() => hold(true)}
      onPointerLeave={() => hold(false)}
      onFocus={() => hold(true)}
      onBlur={() => hold(false)}
    >
      <p>{says}</p>
      {text === undefined ? null : (
        <input
          readOnly
          value={text}
          aria-label="Text to copy"
          onFocus={(event) => event.currentTarget.select()}
        />
      )}
      {action === undefined ? null : (
        <button
          type="button"
          className="button"
          onClick={() => {
            close();
            action.run();
          }}
        >
          {action.label}
        </button>
      )}
      <button type="button" className="button icon-only bare" aria-label="Close this message" onClick={close}>
        <Icon name="cross" />
      </button>
    </div>
  );
}
