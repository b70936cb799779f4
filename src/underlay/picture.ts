import { limits } from '../../shared/schema/scenario.ts';

/** Largest file that is taken in, bytes: beyond it browsers may run out of memory while they unpack it. */
export const mostBytes = 50_000_000;
/** Longest side that a picture keeps, pixels. */
export const longestSide = 2000;

const kinds = ['image/png', 'image/jpeg', 'image/webp'];

/** A picture ready for the document, with its sides in pixels; or why there is none, as a sentence. */
export type TakenPicture =
  | { readonly ok: true; readonly picture: string; readonly width: number; readonly height: number }
  | { readonly ok: false; readonly why: string };

/** Whether a file looks like a picture that can be taken in. */
export const isPicture = (file: Pick<Blob, 'type'>): boolean => file.type.startsWith('image/');

/**
 * Takes a picture in: unpacked, made smaller where its longer side has more than 2000 pixels, and packed again until it
 * fits the document. PNG stays PNG where that is small enough; everything else becomes WebP (JPEG where the browser
 * cannot write WebP).
 */
export async function takePicture(file: Blob): Promise<TakenPicture> {
  if (!kinds.includes(file.type))
    return { ok: false, why: 'is no picture that can be used: PNG, JPEG or WebP were wanted' };
  if (file.size > mostBytes)
    return {
      ok: false,
      why: `has ${Math.round(file.size / 1e6)} MB, and at most ${mostBytes / 1e6} MB can be taken in: make it smaller first`,
    };
  const bitmap = await unpack(file);
  if (bitmap === undefined) return { ok: false, why: 'cannot be read as a picture: the file seems damaged' };
  try {
    return await pack(bitmap, file.type);
  } finally {
    bitmap.close();
  }
}

/** The picture, upright as the camera meant it; undefined when the browser cannot read it. */
async function unpack(file: Blob): Promise<ImageBitmap | undefined> {
  try {
    return await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    return undefined;
  }
}

async function pack(bitmap: ImageBitmap, type: string): Promise<TakenPicture> {
  let share = Math.min(1, longestSide / Math.max(bitmap.width, bitmap.height));
  for (let attempt = 0; attempt < 6; attempt++) {
    const [width, height] = [bitmap.width, bitmap.height].map((side) =>
      Math.max(1, Math.round(side * share)),
    );
    const canvas = new OffscreenCanvas(width as number, height as number);
    canvas.getContext('2d')?.drawImage(bitmap, 0, 0, width as number, height as number);
    for (const [as, quality] of attempts(type)) {
      const picture = await addressOf(await canvas.convertToBlob({ type: as, quality }));
      if (picture.length <= limits.pictureText)
        return { ok: true, picture, width: width as number, height: height as number };
    }
    share *= 0.7;
  }
  return { ok: false, why: 'cannot be made small enough to be kept in a document' };
}

const attempts = (type: string): readonly (readonly [string, number])[] => [
  ...(type === 'image/png' ? ([['image/png', 1]] as const) : []),
  ['image/webp', 0.85],
  ['image/jpeg', 0.8],
  ['image/jpeg', 0.6],
];

/** A blob as a data address. */
function addressOf(blob: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener('load', () => resolve(String(reader.result)));
    reader.addEventListener('error', () => reject(reader.error ?? new Error('a picture could not be read')));
    reader.readAsDataURL(blob);
  });
}
