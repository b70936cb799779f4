/** Our own line icons on a 16 px grid; 1.4 px lines like the drawing's. */
const shapes = {
  play: 'M5 3.2v9.6L12.6 8z',
  pause: 'M5 3.5v9M11 3.5v9',
  frameBack: 'M10.5 3.5 5 8l5.5 4.5zM3.2 3.5v9',
  frameOn: 'M5.5 3.5 11 8l-5.5 4.5zM12.8 3.5v9',
  eventBack: 'M12.5 8H4.2M7.4 4.6 4 8l3.4 3.4M2 4v8',
  eventOn: 'M3.5 8h8.3M8.6 4.6 12 8l-3.4 3.4M14 4v8',
  undo: 'M6 3.5 3 6.5l3 3M3.2 6.5h6a3.2 3.2 0 0 1 0 6.4H6.5',
  redo: 'm10 3.5 3 3-3 3M12.8 6.5h-6a3.2 3.2 0 0 0 0 6.4h2.7',
  steps: 'M6 4h7.5M6 8h7.5M6 12h7.5M2.8 4h.01M2.8 8h.01M2.8 12h.01',
  holds: 'M2.8 8.6 6.3 12l7-8',
  fails: 'm3.5 3.5 9 9M12.5 3.5l-9 9',
  better: 'M8 13V3.4M4 7.4l4-4 4 4',
  worse: 'M8 3v9.6M4 8.6l4 4 4-4',
  light:
    'M8 5.2a2.8 2.8 0 1 1 0 5.6 2.8 2.8 0 0 1 0-5.6zM8 1.2v1.6M8 13.2v1.6M1.2 8h1.6M13.2 8h1.6M3.2 3.2l1.1 1.1M11.7 11.7l1.1 1.1M3.2 12.8l1.1-1.1M11.7 4.3l1.1-1.1',
  dark: 'M13 9.6A5.6 5.6 0 1 1 6.4 3a4.6 4.6 0 0 0 6.6 6.6z',
  system: 'M2.2 3.2h11.6v7.6H2.2zM6 13.4h4M8 10.8v2.6',
  wholeGround: 'M1.8 5V3.2h1.8M14.2 5V3.2h-1.8M1.8 11v1.8h1.8M14.2 11v1.8h-1.8M3.6 9.4h3.2V7h5.6',
  vehicle:
    'M2 9.6V6h6.4V4h2.8l1.6 2.6 1.4.6v2.4M2 9.6h12.2M4.6 9.6a1.6 1.6 0 1 0 0 3.2 1.6 1.6 0 0 0 0-3.2zM11.4 9.6a1.6 1.6 0 1 0 0 3.2 1.6 1.6 0 0 0 0-3.2z',
  follow: 'M8 3.4a4.6 4.6 0 1 1 0 9.2 4.6 4.6 0 0 1 0-9.2zM8 1v4M8 11v4M1 8h4M11 8h4',
  plus: 'M8 3v10M3 8h10',
  minus: 'M3 8h10',
  cross: 'm4 4 8 8M12 4l-8 8',
  keys: 'M1.8 4.2h12.4v7.6H1.8zM4.2 6.6h.01M6.7 6.6h.01M9.2 6.6h.01M11.7 6.6h.01M5 9.4h6',
  alert: 'M8 2.2 14.4 13H1.6zM8 6.4v3.2M8 11.4h.01',
} as const;

export type IconName = keyof typeof shapes;

/** A line icon. It says nothing to a screen reader: the button around it carries the name. */
export function Icon({ name }: { readonly name: IconName }) {
  return (
    <svg className="icon" viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
      <path d={shapes[name]} />
    </svg>
  );
}
