import type { ReactNode } from 'react';

interface SheetProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly onSubmit: () => void;
  readonly children: ReactNode;
}

/** Something larger that is filled in over the picture. Nothing else is stopped by it; Escape leaves it. */
export function Sheet({ title, onClose, onSubmit, children }: SheetProps) {
  return (
    <form
      className="ground-sheet"
      aria-label={title}
      onSubmit={(event) => {
        event.preventDefault();
        onSubmit();
      }}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || event.defaultPrevented) return;
        event.preventDefault();
        event.stopPropagation();
        onClose();
      }}
    >
      <header>
        <h2>{title}</h2>
        <button type="button" className="button small bare" onClick={onClose}>
          Close
        </button>
      </header>
      {children}
    </form>
  );
}
