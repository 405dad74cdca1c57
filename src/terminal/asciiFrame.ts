/** A frame in which the sign of a cut text is made of full stops, as wide as what it stands for: Ink cuts with
 * `…` and knows no other sign. Two characters of the text are given up for it, where there are so many. */
export function asciiFrame(frame: string): string {
  return frame
    .replace(/…([!-~][ -~]?)/g, (_, text: string) => stops(text))
    .replace(
      /(\x1b\[[\d;]*m)?([ -~]{0,2})…/g,
      (_, colour: string | undefined, text: string) => `${colour ?? ''}${stops(text)}`,
    )
}

function stops(text: string): string {
  return '.'.repeat(text.length + 1)
}
