/** A scenario that ships with the app. */
export interface Demo {
  /** File name, `corrie-6x6.json`. */
  readonly name: string;
  readonly title: string;
  /** Its text, loaded when asked for. */
  load(): Promise<string>;
}

const titles = import.meta.glob<string>('/scenarios/*.json', { eager: true, import: 'title' });
const texts = import.meta.glob<string>('/scenarios/*.json', { query: '?raw', import: 'default' });

const nameOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

/** The demo that the app opens on. */
export const flagship = 'corrie-6x6.json';

/** All demos in the order of their titles, the flagship first. Only the titles are in the first script. */
export const demos: readonly Demo[] = Object.entries(texts)
  .map(([path, load]) => ({ name: nameOf(path), title: titles[path] ?? nameOf(path), load }))
  .sort((a, b) =>
    a.name === flagship ? -1 : b.name === flagship ? 1 : a.title.localeCompare(b.title, 'en'),
  );
