const isToday = (ms: number): boolean => new Date(ms).toDateString() === new Date().toDateString();

/** 'today, 12:03' or the date with the time, as the user's system writes them. */
export function whenWords(ms: number): string {
  const time = new Intl.DateTimeFormat(undefined, { timeStyle: 'short' }).format(ms);
  if (isToday(ms)) return `today, ${time}`;
  return `${new Intl.DateTimeFormat(undefined, { dateStyle: 'medium' }).format(ms)}, ${time}`;
}
