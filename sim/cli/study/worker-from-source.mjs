/** A worker of a checkout: it reads the TypeScript source, as the command itself does there. */
import { register } from 'tsx/esm/api';

register();
await import('./worker.ts');
