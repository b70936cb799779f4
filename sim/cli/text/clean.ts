/** Characters that steer a terminal or hide text: they are never printed as they came. */
const STEERING = /[\p{Cc}\p{Cf}\p{Co}\u2028\u2029]/gu;

/**
 * Text of a document made safe for one line of a terminal: every character that could move the cursor, change
 * colours, break the line or hide something is shown as `�`; a tab or line break becomes a space.
 */
export function clean(text: string): string {
  return text.replace(/[\t\r\n]+/g, ' ').replace(STEERING, '�');
}

/**
 * Columns that a text takes in a terminal: combining marks take none, East Asian wide characters and pictures two.
 * Close enough to line a table up; no terminal agrees with another on the rest.
 */
export function widthOf(text: string): number {
  let width = 0;
  for (const character of text) {
    if (/\p{M}/u.test(character)) continue;
    width +=
      /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6]|\p{Emoji_Presentation}/u.test(
        character,
      )
        ? 2
        : 1;
  }
  return width;
}
