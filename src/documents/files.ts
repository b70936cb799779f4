import { limits } from '../../shared/schema/scenario.ts';

/** A file that was read: its name, and its text byte for byte. */
export interface TextFile {
  readonly name: string;
  readonly text: string;
}

type Permission = 'granted' | 'denied' | 'prompt';

/** A file on the disk that the user has chosen, as the system's dialog gives it. The browser can keep it. */
export interface FileHandle {
  readonly name: string;
  getFile(): Promise<File>;
  createWritable(): Promise<{
    write(text: string): Promise<void>;
    close(): Promise<void>;
    abort?(): Promise<void>;
  }>;
  queryPermission?(options: { mode: 'readwrite' }): Promise<Permission>;
  requestPermission?(options: { mode: 'readwrite' }): Promise<Permission>;
}

/** The part of the File System Access interface that is used; browsers without it have neither. */
interface Pickers {
  showOpenFilePicker?(options: object): Promise<readonly FileHandle[]>;
  showSaveFilePicker?(options: object): Promise<FileHandle>;
}

/** A file that was picked, and the way back to it where there is one. */
export interface Picked {
  readonly file: File;
  readonly handle?: FileHandle;
}

/** Where a file was saved: its name, and the way back to it where there is one. */
export interface Saved {
  readonly name: string;
  readonly handle?: FileHandle;
}

const types = [{ description: 'Scenario', accept: { 'application/json': ['.json'] } }];

// Not file.text(): that drops a byte order mark, and the file could not be saved back as it was.
const textIn = async (file: File): Promise<string> =>
  new TextDecoder('utf-8', { ignoreBOM: true }).decode(await file.arrayBuffer());

/**
 * Reads a file as text. A file past the limit is not read at all; its problem says so.
 * @returns the file, or why it could not be read
 */
export async function readTextFile(
  file: File,
): Promise<TextFile | { readonly name: string; readonly refused: string }> {
  const { name, size } = file;
  if (size > limits.bytes) {
    return {
      name,
      refused: `is ${(size / 1e6).toFixed(1)} MB, scenarios may have ${limits.bytes / 1e6} MB at most`,
    };
  }
  return { name, text: await textIn(file) };
}

const isAbort = (error: unknown): boolean => error instanceof DOMException && error.name === 'AbortError';

function pickByInput(): Promise<Picked | undefined> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = '.json,application/json';
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      resolve(file === undefined ? undefined : { file });
    });
    input.addEventListener('cancel', () => resolve(undefined));
    input.click();
  });
}

/** Lets the person pick a file; undefined when they think better of it. */
export async function pickFile(): Promise<Picked | undefined> {
  const { showOpenFilePicker } = window as Pickers;
  if (showOpenFilePicker === undefined) return pickByInput();
  try {
    const [handle] = await showOpenFilePicker.call(window, { types });
    return handle === undefined ? undefined : { file: await handle.getFile(), handle };
  } catch (error) {
    if (isAbort(error)) return undefined;
    return pickByInput();
  }
}

/** Writes a file into the folder of downloads. */
export function saveByDownload({ name, text }: TextFile): Saved {
  const address = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The download has its own hold on the data by then.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
  return { name };
}

/** Browsers write beside the file and put it in its place on close, so a write that fails leaves the old one. */
async function writeTo(handle: FileHandle, text: string): Promise<void> {
  const stream = await handle.createWritable();
  try {
    await stream.write(text);
    await stream.close();
  } catch (error) {
    await stream.abort?.().catch(() => undefined);
    throw error;
  }
}

/** Writes a file where the person wants it. Returns the name it got, or undefined when they think better of it. */
export async function saveFile(file: TextFile): Promise<Saved | undefined> {
  const { showSaveFilePicker } = window as Pickers;
  if (showSaveFilePicker === undefined) return saveByDownload(file);
  try {
    const handle = await showSaveFilePicker.call(window, { types, suggestedName: file.name });
    await writeTo(handle, file.text);
    return { name: handle.name, handle };
  } catch (error) {
    if (isAbort(error)) return undefined;
    return saveByDownload(file);
  }
}

/** What came of writing a file back: `changed` when somebody else has changed it meanwhile, and it was left alone. */
export type Rewrite = 'saved' | 'changed' | 'denied';

/**
 * Writes a file back to where it came from.
 * @param was the text that it is expected to have; undefined to write it whatever it has
 */
export async function rewriteFile(
  handle: FileHandle,
  text: string,
  was: string | undefined,
): Promise<Rewrite> {
  try {
    const mode = { mode: 'readwrite' } as const;
    const asked = (await handle.queryPermission?.(mode)) ?? 'granted';
    if (asked !== 'granted' && (await handle.requestPermission?.(mode)) !== 'granted') return 'denied';
    if (was !== undefined && (await textIn(await handle.getFile())) !== was) return 'changed';
    await writeTo(handle, text);
    return 'saved';
  } catch {
    // Moved, deleted, or its disk is gone: the caller asks for another place.
    return 'denied';
  }
}
