import { exits } from '../exit.ts';
import { demosIn } from '../input/demos.ts';
import { clean } from '../text/clean.ts';
import { table } from '../text/table.ts';
import type { Verb } from '../verb.ts';

/** `axlewright demos`: the scenarios that come with the program. */
export const demos: Verb = {
  name: 'demos',
  summary: 'list the scenarios that come with the program',
  examples: [['axlewright demos', 'what there is to try']],
  attach(command, { terminal, demoFolder }, done) {
    command
      .option('--json', 'print names, titles and paths as JSON')
      .action(({ json }: { readonly json?: true }) => {
        const found = demosIn(demoFolder);
        const columns = [
          { head: 'demo', align: 'left' },
          { head: 'title', align: 'left' },
        ] as const;
        const text = table(
          columns,
          found.map(({ name, title }) => [clean(name), clean(title)]),
        ).join('\n');
        terminal.result(`${json === true ? JSON.stringify(found, null, 2) : text}\n`);
        done(exits.pass);
      });
  },
};
