import type { Drawn } from '../runs/desk.ts';
import { type DocumentState, type DocumentStore, openDocument } from '../store/document.ts';
import type { KeepingStore, Toast } from '../store/keeping.ts';
import { type Beginning, begunFrom } from './begin.ts';
import { type Claim, claim, claimByForce, claimWhenFree } from './claim.ts';
import { Hold, type Outcome } from './hold.ts';
import { writeMarker } from './marker.ts';
import { copyName } from './names.ts';
import type { Keepable, Kept } from './record.ts';
import type { Found, Shelf } from './shelf.ts';
import { type Trouble, troubleOf } from './trouble.ts';

/** How long another tab may take to give a document away before it counts as dead, ms. */
const ANSWER = 1500;

/** How long a deleted document can be brought back, ms. */
export const BRING_BACK = 30 * 24 * 3600 * 1000;

/** What the keeper works with. */
export interface KeeperTools {
  readonly documents: DocumentStore;
  readonly keeping: KeepingStore;
  drawn(): Drawn | undefined;
  /** A new name that no document or window has had: ids and owners. */
  fresh(): string;
  now(): number;
  later(ms: number, then: () => void): () => void;
}

/** A document that was read from the database, and the right to write it unless another tab has that. */
interface Coming {
  readonly found: Found;
  readonly state: Keepable;
  readonly claim: Claim | undefined;
}

/** What tabs say to each other. */
type Word = { readonly kind: 'give'; readonly id: string } | { readonly kind: 'changed' };

const READ_ONLY = 'it is open in another tab';

/** What is in the database of a document that was read from it. */
function keptFrom({ head, body }: Found, { text, past, future }: Keepable): Kept {
  return { id: head.id, first: head.first, timeline: [...past, ...future], text, anchor: body.anchor };
}

/** Keeps whatever is open in the browser's database, and sees to it that no two tabs write one document. */
export class Keeper {
  readonly #tools: KeeperTools;
  readonly #channel: BroadcastChannel | undefined;
  readonly #watchers = new Set<() => void>();
  shelf: Shelf | undefined;
  #hold: Hold | undefined;
  #wait: AbortController | undefined;
  #closing: Promise<unknown> = Promise.resolve();
  /** What is about to be opened from the database, so that it isn't kept anew. */
  #coming: Coming | undefined;

  constructor(tools: KeeperTools, beginning: Beginning) {
    this.#tools = tools;
    this.shelf = beginning.shelf;
    this.#channel = typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel('axlewright');
    beginning.lost.tell = (trouble) => this.#loseShelf(trouble);
    this.#channel?.addEventListener('message', ({ data }) => this.#hear(data as Word));
    const { found, state, trouble, toast, claim: held } = beginning;
    tools.keeping.setState({ trouble, ...(toast === undefined ? {} : { toast }) });
    if (found !== undefined && state !== undefined) this.#coming = { found, state, claim: held };
    this.#opened(tools.documents.getState());
    tools.documents.subscribe((now, last) => this.#follow(now, last));
  }

  /** A name that nothing has had. */
  fresh(): string {
    return this.#tools.fresh();
  }

  /** Calls `tell` whenever lists of documents have become others; returns the way to stop. */
  readonly watch = (tell: () => void): (() => void) => {
    this.#watchers.add(tell);
    return () => {
      this.#watchers.delete(tell);
    };
  };

  /** Lists have become others: here, and in other tabs. */
  changed(): void {
    for (const tell of this.#watchers) tell();
    this.#channel?.postMessage({ kind: 'changed' } satisfies Word);
  }

  say(toast: Toast): void {
    this.#tools.keeping.setState({ toast });
  }

  /** Opens a kept document; read only, when another tab has it. @throws when it is not there or makes no sense */
  async open(id: string, force?: Claim): Promise<void> {
    const { shelf } = this;
    if (shelf === undefined) return;
    await this.#hold?.flush();
    await this.#closing;
    const held = force ?? (await claim(id));
    try {
      const [found, handle] = await Promise.all([shelf.find(id), shelf.handle(id).catch(() => undefined)]);
      if (found === undefined) throw new Error('it is no longer there');
      const { begun, state } = begunFrom(found, handle);
      this.#coming = { found, state, claim: held };
      openDocument(this.#tools.documents, begun.name, begun.text, begun.written, begun.known);
    } catch (error) {
      held?.release();
      throw error;
    }
  }

  /** The kept document that has this name and this very text and no edits; undefined when there is none. */
  async twinOf(name: string, text: string): Promise<string | undefined> {
    const { shelf } = this;
    if (shelf === undefined) return undefined;
    await this.flush();
    const heads = await shelf.heads();
    for (const { id } of heads.filter((head) => head.name === name && head.deleted === undefined)) {
      const found = await shelf.find(id);
      if (found === undefined || found.body.text !== text) continue;
      const { raw, written } = begunFrom(found).state;
      if (raw === written) return id;
    }
    return undefined;
  }

  /** Keeps what is open even if nobody has changed it. @returns its id; undefined where nothing can be kept */
  async ensure(): Promise<string | undefined> {
    const { documents } = this.#tools;
    if (documents.getState().id === undefined) this.#begin(documents.getState());
    await this.flush();
    return documents.getState().id;
  }

  /** What is open here goes on as a document of its own, with its history. */
  copy(): void {
    const { documents } = this.#tools;
    const { name, text, written, raw, past, future } = documents.getState();
    openDocument(documents, copyName(name), text, written, { raw, past, future });
  }

  /** Takes the open document over from the tab that has it: asks for it, and takes it when nobody answers. */
  async takeOver(): Promise<void> {
    const { id } = this.#tools.documents.getState();
    if (id === undefined) return;
    this.#channel?.postMessage({ kind: 'give', id } satisfies Word);
    const asked = this.#wait;
    await new Promise<void>((go) => this.#tools.later(ANSWER, go));
    // The wait for the right has ended well meanwhile, when the other tab gave it.
    if (asked !== this.#wait || this.#tools.documents.getState().id !== id) return;
    asked?.abort();
    const held = await claimByForce(id);
    if (held !== undefined) await this.open(id, held);
  }

  /** Deletes for good what was deleted longer ago than `age`, ms. */
  async clearOut(age: number): Promise<void> {
    const before = this.#tools.now() - age;
    try {
      const heads = (await this.shelf?.heads()) ?? [];
      const old = heads.filter(({ deleted }) => deleted !== undefined && deleted < before);
      if (old.length > 0) await this.shelf?.destroy(old.map(({ id }) => id));
    } catch {
      // It only makes room; the next visit tries again.
    }
  }

  /** Settles when everything is written, or has failed. */
  async flush(): Promise<void> {
    await this.#hold?.flush();
  }

  /** Settles when the documents that were open before are written and let go. */
  async settled(): Promise<void> {
    await this.#closing;
  }

  /** The page is being left. */
  leave(): void {
    this.#hold?.leave();
    this.#mark(true);
  }

  /** The page is here again. */
  come(): void {
    this.#mark(false);
  }

  /** The user has made room, or asks to try again. */
  async again(): Promise<void> {
    const state = this.#tools.documents.getState();
    if (this.#tools.keeping.getState().trouble === undefined || this.shelf === undefined) return;
    if (this.#hold === undefined) this.#begin(state);
    await this.#hold?.flush();
  }

  #mark(left: boolean): void {
    const { id, demo, name } = this.#tools.documents.getState();
    if (id !== undefined) writeMarker({ id, left });
    else if (demo) writeMarker({ demo: name, left });
  }

  #follow(now: DocumentState, last: DocumentState): void {
    if (now.opening !== last.opening) this.#opened(now);
    else if (
      now.raw !== last.raw ||
      now.past !== last.past ||
      now.text !== last.text ||
      now.name !== last.name
    ) {
      if (now.readOnly !== undefined) return;
      if (this.#hold === undefined) this.#begin(now);
      else this.#hold.put(now);
    }
    if (now.id !== undefined && now.handle !== last.handle) this.#keepHandle(now);
  }

  #keepHandle({ id, handle }: DocumentState): void {
    // A handle that the browser cannot keep is only asked for again next time.
    if (id !== undefined) void this.shelf?.keepHandle(id, handle).catch(() => undefined);
  }

  /** Another document is open: the one before is written and let go, the new one taken up. */
  #opened(now: DocumentState): void {
    const before = this.#hold;
    this.#hold = undefined;
    this.#wait?.abort();
    this.#wait = undefined;
    const coming = this.#coming;
    this.#coming = undefined;
    this.#tools.keeping.setState(({ trouble }) => ({
      phase: 'none',
      elsewhere: undefined,
      reading: false,
      trouble: this.shelf === undefined ? trouble : undefined,
    }));
    this.#closing = Promise.all([this.#closing, before?.close()]).then(() => {
      if (before !== undefined) this.changed();
    });
    const isComing = coming !== undefined && coming.found.head.id === now.id;
    if (isComing) this.#takeUp(coming);
    else {
      coming?.claim?.release();
      if (!now.demo || now.past.length > 0) this.#begin(now);
    }
    this.#mark(false);
  }

  /** Begins to keep what is open as a new document. */
  #begin(state: DocumentState): void {
    const { shelf } = this;
    if (shelf === undefined || state.name === '') return;
    const id = this.#tools.fresh();
    const owner = this.#tools.fresh();
    const created = this.#tools.now();
    const held = claim(id);
    const release = (): void => void held.then((each) => each?.release());
    const hold = new Hold(
      { id, owner, created, claim: { release, lost: held.then((each) => each?.lost) } },
      this.#holdTools(shelf),
    );
    this.#hold = hold;
    this.#tools.documents.setState({ id });
    hold.put(this.#tools.documents.getState());
    this.#keepHandle(this.#tools.documents.getState());
    this.#watchLoss(hold);
    this.#mark(false);
  }

  /** Takes up a document that was read from the database. */
  #takeUp({ found, state, claim: held }: Coming): void {
    const { shelf } = this;
    const { head } = found;
    if (shelf === undefined) return;
    if (held === undefined) {
      this.#readOnly('open', head.id);
      return;
    }
    const owner = this.#tools.fresh();
    const kept = keptFrom(found, state);
    const hold = new Hold(
      { id: head.id, owner, created: head.created, claim: held, kept, head },
      this.#holdTools(shelf),
    );
    this.#hold = hold;
    this.#tools.keeping.setState({ phase: 'kept' });
    this.#watchLoss(hold);
    // From now on only this window may write it, even if another one still believes that it may.
    hold.after(shelf.amend(head.id, (now) => ({ ...now, owner })));
  }

  #holdTools(shelf: Shelf) {
    const { drawn, now, later } = this.#tools;
    return { shelf, drawn, now, later, tell: (outcome: Outcome) => this.#told(outcome) };
  }

  #watchLoss(hold: Hold): void {
    void hold.lost.then(() => {
      if (this.#hold !== hold) return;
      hold.drop();
      this.#told({ kind: 'taken' });
    });
  }

  #told(outcome: Outcome): void {
    const { keeping, documents } = this.#tools;
    if (outcome.kind === 'waiting') keeping.setState({ phase: 'waiting' });
    else if (outcome.kind === 'kept') {
      keeping.setState({ phase: 'kept', trouble: undefined });
      this.changed();
    } else if (outcome.kind === 'trouble') keeping.setState({ trouble: outcome.trouble });
    else {
      const { id } = documents.getState();
      this.#hold = undefined;
      if (id !== undefined) this.#readOnly('taken', id);
    }
  }

  /** Another tab has the document: nothing is changed here until that one has closed it. */
  #readOnly(elsewhere: 'open' | 'taken', id: string): void {
    const { documents, keeping } = this.#tools;
    documents.setState({ readOnly: READ_ONLY });
    keeping.setState({ elsewhere, reading: false, phase: 'none' });
    const wait = new AbortController();
    this.#wait = wait;
    void claimWhenFree(id, wait.signal).then(async (held) => {
      if (held === undefined) return;
      if (wait.signal.aborted) {
        held.release();
        return;
      }
      this.#wait = undefined;
      await this.open(id, held).catch((error: unknown) => keeping.setState({ trouble: troubleOf(error) }));
      this.say({ says: 'The other tab has let this document go. It can be changed here now.' });
    });
  }

  #hear(word: Word): void {
    if (word.kind === 'changed') {
      for (const tell of this.#watchers) tell();
      return;
    }
    const hold = this.#hold;
    if (hold?.id !== word.id) return;
    this.#hold = undefined;
    void hold.close().then(() => this.#readOnly('taken', word.id));
  }

  #loseShelf(trouble: Trouble): void {
    this.shelf = undefined;
    this.#hold?.drop();
    this.#hold = undefined;
    this.#tools.keeping.setState({ trouble });
  }
}
