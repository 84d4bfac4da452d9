/**
 * A text for a DXF file as other programs read it back: on one line, nothing in it taken for a code. A pair of percent signs
 * (%%c would be a diameter sign) and a backslash before U+ or M+ (a letter by its number) are parted by a space; a caret is
 * written as the caret code of itself.
 */
export function dxfWords(text: string): string {
  return text
    .replace(/[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\p{Cn}]+/gu, ' ')
    .replace(/%(?=%)/gu, '% ')
    .replace(/\\(?=[UM]\+)/giu, '\\ ')
    .trim()
    .replaceAll('^', '^ ');
}
