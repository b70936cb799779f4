/** 'corrie-6x6.json' → 'corrie-6x6 copy.json' → 'corrie-6x6 copy 2.json'. */
export function copyName(name: string): string {
  const [, stem = name, , number] = /^(.*?)( copy(?: (\d+))?)?(?:\.json)?$/i.exec(name) ?? [];
  const isCopy = / copy(?: \d+)?(?:\.json)?$/i.test(name);
  return `${stem} copy${isCopy ? ` ${Number(number ?? 1) + 1}` : ''}.json`;
}

/** A name that the user has typed as the name of a file; undefined when nothing is left of it. */
export function typedName(text: string): string | undefined {
  const stem = text
    .replace(/\.json$/i, '')
    .replace(/[\\/:*?"<>|\p{Cc}]/gu, ' ')
    .trim()
    .replace(/^\.+/, '')
    .slice(0, 80);
  return stem === '' ? undefined : `${stem}.json`;
}

/** A file name without its ending, as lists show it. */
export const stemOf = (name: string): string => name.replace(/\.json$/i, '');
