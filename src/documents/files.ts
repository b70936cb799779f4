import { limits } from '../../shared/schema/scenario.ts';

/** A file that was read: its name, and its text byte for byte. */
export interface TextFile {
  readonly name: string;
  readonly text: string;
}

interface Handle {
  readonly name: string;
  getFile(): Promise<File>;
  createWritable(): Promise<{ write(text: string): Promise<void>; close(): Promise<void> }>;
}

/** The part of the File System Access interface that is used; browsers without it have neither. */
interface Pickers {
  showOpenFilePicker?(options: object): Promise<readonly Handle[]>;
  showSaveFilePicker?(options: object): Promise<Handle>;
}

const types = [{ description: 'Scenario', accept: { 'application/json': ['.json'] } }];

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
  // Not file.text(): that drops a byte order mark, and the file could not be saved back as it was.
  const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(await file.arrayBuffer());
  return { name, text };
}

const isAbort = (error: unknown): boolean => error instanceof DOMException && error.name === 'AbortError';

function pickByInput(): Promise<File | undefined> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = '.json,application/json';
    input.addEventListener('change', () => resolve(input.files?.[0]));
    input.addEventListener('cancel', () => resolve(undefined));
    input.click();
  });
}

/** Lets the person pick a file; undefined when they think better of it. */
export async function pickFile(): Promise<File | undefined> {
  const { showOpenFilePicker } = window as Pickers;
  if (showOpenFilePicker === undefined) return pickByInput();
  try {
    const [handle] = await showOpenFilePicker.call(window, { types });
    return await handle?.getFile();
  } catch (error) {
    if (isAbort(error)) return undefined;
    return pickByInput();
  }
}

function saveByDownload({ name, text }: TextFile): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The download has its own hold on the data by then.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** Writes a file where the person wants it. Returns the name it got, or undefined when they think better of it. */
export async function saveFile(file: TextFile): Promise<string | undefined> {
  const { showSaveFilePicker } = window as Pickers;
  if (showSaveFilePicker === undefined) {
    saveByDownload(file);
    return file.name;
  }
  try {
    const handle = await showSaveFilePicker.call(window, { types, suggestedName: file.name });
    const stream = await handle.createWritable();
    await stream.write(file.text);
    await stream.close();
    return handle.name;
  } catch (error) {
    if (isAbort(error)) return undefined;
    saveByDownload(file);
    return file.name;
  }
}
