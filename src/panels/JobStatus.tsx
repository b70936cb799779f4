import { formatShare } from '../../shared/units.ts';
import type { Job } from '../runs/studies.ts';

interface JobStatusProps {
  readonly job: Job<unknown>;
  /** What is being worked out: 'Limits'. */
  readonly name: string;
  readonly onCancel: () => void;
}

/** How far a job is, with the way to call it off. */
export function JobStatus({ job, name, onCancel }: JobStatusProps) {
  if (job.kind === 'failed') return <p className="run-end">Not found: {job.message}</p>;
  if (job.kind !== 'running') return null;
  return (
    <div className="job">
      <progress max={1} value={job.share} aria-label={name} />
      <span className="soft">
        {formatShare(job.share, 2)}
        {job.next === '' ? '' : `, ${job.next.toLowerCase()}`}
      </span>
      <button type="button" className="button small" onClick={onCancel}>
        Cancel
      </button>
    </div>
  );
}
