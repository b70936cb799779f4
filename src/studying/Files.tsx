import { useState } from 'react';
import type { Problem } from '../../shared/problem.ts';
import { readStudy } from '../../sim/tuning/read.ts';
import { pickFile, readTextFile, saveFile } from '../documents/files.ts';
import { ProblemList } from '../panels/Problems.tsx';
import type { StudyDraft } from './draft.ts';
import type { Tuning } from './session.ts';

interface Props {
  readonly tuning: Tuning;
  readonly study: StudyDraft;
}

const fileName = ({ scenario }: StudyDraft): string =>
  `${scenario.replace(/(\.scenario)?\.json$/, '')}.study.json`;

/** The study as a file of its own kind, which the command line takes too. */
export function Files({ tuning, study }: Props) {
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const open = async (): Promise<void> => {
    const picked = await pickFile();
    if (picked === undefined) return;
    const file = await readTextFile(picked.file);
    const refusal = (message: string): Problem => ({ path: '', message, severity: 'error' });
    if ('refused' in file) {
      setProblems([refusal(`${file.name} ${file.refused}`)]);
      return;
    }
    const read = readStudy(file.text);
    setProblems(read.ok ? [] : read.problems);
    if (read.ok) tuning.write(JSON.parse(file.text) as StudyDraft);
  };
  return (
    <section className="measure">
      <h3>Study file</h3>
      <div className="group">
        <button type="button" className="button small" onClick={() => void open()}>
          Open study
        </button>
        <button
          type="button"
          className="button small"
          onClick={() =>
            void saveFile({ name: fileName(study), text: `${JSON.stringify(study, null, 2)}\n` })
          }
        >
          Save study
        </button>
      </div>
      {problems.length === 0 ? null : <ProblemList problems={problems} />}
    </section>
  );
}
