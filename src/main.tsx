import { startEngine } from './runs/headstart.ts';

// First the worker, which takes longest; the window's own script loads while it works.
const engine = startEngine();
const { start } = await import('./app/start.tsx');
await start(engine);
