/** The little of a zod refinement context that the checks here need. */
interface Refinement {
  addIssue(issue: { code: 'custom'; message: string; params?: Record<string, unknown> }): void;
}

function given(params: object, names: readonly string[]): string[] {
  return names.filter((name) => (params as Record<string, unknown>)[name] !== undefined);
}

const listed = (names: readonly string[]): string => names.map((name) => `\`${name}\``).join(' and ');

/** Two ways to say the same figure, of which one must be used. For `superRefine` of a kind's fields. */
export function exactlyOne(first: string, second: string) {
  return (params: object, context: Refinement): void => {
    const found = given(params, [first, second]);
    if (found.length === 1) return;
    context.addIssue(
      found.length === 0
        ? {
            code: 'custom',
            message: `needs \`${first}\` or \`${second}\`, and has neither`,
            params: { hint: `give \`${first}\` if it is known` },
          }
        : {
            code: 'custom',
            message: `has ${listed(found)}, which say the same thing`,
            params: { hint: 'keep one, leave the other out' },
          },
    );
  };
}

/** Two ways to say the same figure, of which one may be used. For `superRefine` of a kind's fields. */
export function atMostOne(first: string, second: string) {
  return (params: object, context: Refinement): void => {
    const found = given(params, [first, second]);
    if (found.length < 2) return;
    context.addIssue({
      code: 'custom',
      message: `has ${listed(found)}, which say the same thing`,
      params: { hint: 'keep one, leave the other out' },
    });
  };
}
