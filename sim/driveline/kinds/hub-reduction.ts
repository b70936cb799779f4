import { definePart } from '../part.ts';
import { reduction } from './reduction.ts';

/** A reduction at the hub or in a portal: it sits on the carrier of its wheels unless the document says otherwise. */
export const hubReduction = definePart({
  ...reduction,
  kind: 'hub-reduction',
  title: 'Hub or portal reduction',
  onCarrier: true,
});
