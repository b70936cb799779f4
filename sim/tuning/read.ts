import { type Checked, type Problem, Problems } from '../../shared/problem.ts';
import { jsonKind } from '../../shared/schema/quantity.ts';
import { readJson } from '../scenario/json.ts';
import { tellIssues } from '../scenario/wording.ts';
import { type StudyDocument, studyDocument, studyFormat, studyVersion } from './document.ts';

/**
 * Reads a study from JSON text, or from a value that was parsed already. All problems come at once, each with its path,
 * what is wrong and a hint. What its numbers mean is checked when it is bound to its scenario (`bindStudy`).
 */
export function readStudy(input: unknown): Checked<StudyDocument> {
  const json = typeof input === 'string' ? readJson(input) : undefined;
  if (json?.ok === false) return json;
  const document = json === undefined ? input : json.value;
  const foreign = foreignTo(document);
  if (foreign !== undefined) return { ok: false, problems: [foreign] };
  const problems = new Problems();
  const read = studyDocument.safeParse(document);
  if (!read.success) tellIssues(studyDocument, document, read.error.issues, problems);
  return read.success ? problems.check(read.data) : { ok: false, problems: problems.list };
}

/** Why it makes no sense to read on: no object, another format, a newer version. */
function foreignTo(document: unknown): Problem | undefined {
  if (typeof document !== 'object' || document === null || Array.isArray(document))
    return {
      path: '',
      message: `is ${jsonKind(document)}, an object was wanted`,
      hint: `a study begins with { "format": "${studyFormat}", "version": ${studyVersion}, …`,
      severity: 'error',
    };
  const { format, version } = document as { readonly format?: unknown; readonly version?: unknown };
  if (format !== undefined && format !== studyFormat)
    return {
      path: 'format',
      message: `is ${typeof format === 'string' ? `"${format.slice(0, 60)}"` : jsonKind(format)}, not "${studyFormat}"`,
      hint:
        format === 'axlewright-scenario'
          ? 'this is a scenario; a study names one in its field "scenario"'
          : 'this is no study of this program',
      severity: 'error',
    };
  if (typeof version === 'number' && version > studyVersion)
    return {
      path: 'version',
      message: `is ${version}, newer than this program, which reads up to version ${studyVersion}`,
      hint: 'update the program',
      severity: 'error',
    };
  return undefined;
}
