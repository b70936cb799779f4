import type { Report } from '../../shared/report.ts';

/** Title and SI unit of what a study looks at, as the report on show has them; '1' where it has nothing of that name. */
export function aboutMeasure(
  report: Pick<Report, 'measures' | 'verdicts'> | undefined,
  text: string,
): { readonly title: string; readonly unit: string } {
  const name = text.replace(/\[.*/, '');
  const verdict = report?.verdicts.find(({ index }) => `criteria[${index}]` === text);
  if (verdict !== undefined) return { title: verdict.asks, unit: verdict.unit };
  const row = report?.measures.find((each) => each.name === name);
  return { title: row?.title ?? text, unit: row?.unit ?? '1' };
}
