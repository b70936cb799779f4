/** Members that the criteria of a scenario want off their stops. */
export function keptOffStops(
  criteria: readonly { readonly kind: string; readonly members?: readonly string[] | undefined }[],
  members: readonly { readonly name: string }[],
): string[] {
  return criteria.flatMap((criterion) =>
    criterion.kind === 'no-stop-hit' ? (criterion.members ?? members.map((m) => m.name)) : [],
  );
}
