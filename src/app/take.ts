import { admit } from '../documents/admit.ts';
import { type Known, openDocument } from '../store/document.ts';
import type { Workbench } from './workbench.ts';

/** Takes text in as the open document, or shows everything that is wrong with it and leaves the open one alone. */
export function takeText({ documents, notices }: Workbench, name: string, text: string, known?: Known): void {
  const admitted = admit(text);
  if (!admitted.ok) {
    notices.setState({ refused: { name, problems: admitted.problems } });
    return;
  }
  notices.setState({ refused: undefined });
  openDocument(documents, name, text, admitted.value, known);
}
