const names: Readonly<Record<string, string>> = {
  ' ': 'Space',
  ArrowRight: '→',
  ArrowLeft: '←',
  ArrowUp: '↑',
  ArrowDown: '↓',
  '-': '−',
  Escape: 'Esc',
};

/** 'Shift+ArrowRight' as the caps of the keys to press. */
export function Caps({ keys }: { readonly keys: string }) {
  const parts = keys.split(/\+(?=.)/);
  return parts.map((part) => {
    const name = names[part] ?? part;
    return <kbd key={part}>{name.length === 1 ? name.toUpperCase() : name}</kbd>;
  });
}
