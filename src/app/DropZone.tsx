import { useEffect } from 'react';
import { takeFile } from './actions.ts';
import { useBench, useNotice, type Workbench } from './workbench.ts';

const carriesFile = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;

/** A picture goes under the drawing; what does that is loaded with the first one. */
async function takePictureFile(bench: Workbench, file: File): Promise<void> {
  await (await import('../underlay/take.ts')).takePictureFile(bench, file);
}

/** A profile goes into the ground; what does that is loaded with the first one. */
async function takeProfileFile(bench: Workbench, file: File): Promise<void> {
  await (await import('../groundwork/take.ts')).takeProfileFile(bench, file);
}

function listenToDrops(bench: Workbench): () => void {
  const { notices } = bench;
  const over = (event: DragEvent): void => {
    if (!carriesFile(event)) return;
    event.preventDefault();
    if (!notices.getState().dropping) notices.setState({ dropping: true });
  };
  const leave = (event: DragEvent): void => {
    // Leaving one element for another inside the window names where it goes; leaving the window doesn't.
    if (event.relatedTarget === null) notices.setState({ dropping: false });
  };
  const drop = (event: DragEvent): void => {
    if (!carriesFile(event)) return;
    event.preventDefault();
    notices.setState({ dropping: false });
    const file = event.dataTransfer?.files[0];
    if (file === undefined) return;
    if (file.type.startsWith('image/')) void takePictureFile(bench, file);
    else if (/\.[ct]sv$/i.test(file.name)) void takeProfileFile(bench, file);
    else void takeFile(bench, file);
  };
  window.addEventListener('dragover', over);
  window.addEventListener('dragleave', leave);
  window.addEventListener('drop', drop);
  return () => {
    window.removeEventListener('dragover', over);
    window.removeEventListener('dragleave', leave);
    window.removeEventListener('drop', drop);
  };
}

/** Takes a file that is dropped anywhere on the window, and says so while one hangs over it. */
export function DropZone() {
  const bench = useBench();
  const dropping = useNotice((state) => state.dropping);
  useEffect(() => listenToDrops(bench), [bench]);
  return dropping ? (
    <div className="drop-zone">Drop a scenario file to open it, a picture to draw over, or a CSV profile</div>
  ) : null;
}
