/** The right to write a document, which one tab has at a time. The browser gives it back when the tab ends or dies. */
export interface Claim {
  release(): void;
  /** Settles when another tab has taken the right away. */
  readonly lost: Promise<void>;
}

const nameOf = (id: string): string => `axlewright-document-${id}`;

/** Where the browser has no locks, each window believes that it is alone; the owner's name in each row still guards. */
const unguarded: Claim = { release: () => undefined, lost: new Promise(() => undefined) };

function request(id: string, options: LockOptions): Promise<Claim | undefined> {
  if (navigator.locks === undefined) return Promise.resolve(unguarded);
  return new Promise((resolve) => {
    let tellLost = (): void => undefined;
    const lost = new Promise<void>((tell) => {
      tellLost = tell;
    });
    navigator.locks
      .request(nameOf(id), options, (lock) => {
        if (lock === null) {
          resolve(undefined);
          return undefined;
        }
        return new Promise<void>((release) => resolve({ release, lost }));
      })
      .catch(() => {
        resolve(undefined);
        tellLost();
      });
  });
}

/** Takes the right to write a document; undefined when another tab has it. */
export const claim = (id: string): Promise<Claim | undefined> => request(id, { ifAvailable: true });

/** Waits for the right until no other tab has it; undefined when the signal calls the wait off. */
export const claimWhenFree = (id: string, signal: AbortSignal): Promise<Claim | undefined> =>
  request(id, { signal });

/** Takes the right away from a tab that does not answer. */
export const claimByForce = (id: string): Promise<Claim | undefined> => request(id, { steal: true });

/** Ids of the documents that tabs of this browser have open. */
export async function claimed(): Promise<ReadonlySet<string>> {
  const held = (await navigator.locks?.query())?.held ?? [];
  const prefix = nameOf('');
  const names = held.flatMap(({ name }) => (name?.startsWith(prefix) ? [name.slice(prefix.length)] : []));
  return new Set(names);
}
