import type { Path } from '../../shared/path.ts';
import { type FieldAbout, keysAt } from '../../shared/schema/describe.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import type { Json } from '../documents/json.ts';
import { FigureField } from '../panels/fields/FigureField.tsx';
import { type Field, labelOf } from '../panels/fields/layout.ts';
import { about, type PlaceProps } from './filling.ts';

export const takesFigure = ({ takes }: FieldAbout): boolean => takes === 'figure' || takes === 'number';

/** The two figures of a point, or of a pair in a table; undefined for anything else. */
export function pairAt(document: Json, path: Path): readonly Field[] | undefined {
  const fields = keysAt(scenarioDocument, document, path).flatMap((key): Field[] => {
    const field = about(document, [...path, key]);
    return field !== undefined && takesFigure(field)
      ? [{ path: [...path, key], part: labelOf(key), about: field }]
      : [];
  });
  const keys = keysAt(scenarioDocument, document, path);
  return fields.length === 2 && keys.length === 2 && fields.every(({ part }) => part.length <= 7)
    ? fields
    : undefined;
}

export function PairRow({
  fields,
  label,
  part,
}: { readonly fields: readonly Field[] } & Omit<PlaceProps, 'path'>) {
  return (
    <fieldset className="row pair">
      <legend>{label}</legend>
      {fields.map((field, i) => (
        <FigureField
          key={field.part}
          field={field}
          label={field.part}
          name={`${part} ${label} ${field.part}`}
          speaksForPair={i === 0}
        />
      ))}
    </fieldset>
  );
}
