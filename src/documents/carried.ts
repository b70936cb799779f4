import { isObject, type Json, withoutValue } from './json.ts';

/**
 * The document as files and links carry it: without the picture that is drawn over, unless that is wanted there
 * (`underlay.inFiles`).
 */
export function forFiles(document: Json): Json {
  if (!isObject(document) || !isObject(document.underlay) || document.underlay.inFiles === true)
    return document;
  return withoutValue(document, ['underlay']);
}
