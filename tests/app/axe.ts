import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly target: readonly string[]; readonly failureSummary: string }[];
}

/** What axe has against the page; run as text, because the page's policy lets no script in. */
export async function violations(page: Page): Promise<string[]> {
  const found = (await page.evaluate(
    `${axe}; axe.run(document).then(({ violations }) => violations)`,
  )) as Violation[];
  return found.flatMap(({ id, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id}: ${target.join(' ')} ${failureSummary}`),
  );
}
