import { type Drawing, type Hatch, type Palette, type Pen, type Role, type Shape, type Spot, textWidth } from '#book';

/** The bundled font first, then what stands in for it where a machine does not have it. */
const FONTS = "'Source Sans 3', 'Source Sans 3 Variable', 'Source Sans Pro', 'Liberation Sans', Arial, sans-serif";
const WEIGHTS = { regular: 400, bold: 700 } as const;
/** Decimals of a place: a thousandth of a millimetre is less than any printer's dot. */
const DECIMALS = 3;

/** A drawing as a whole SVG file, colours written out from the palette. Text keeps its measured width in whatever font is there. */
export function svgText(drawing: Drawing, palette: Palette): string {
  const writer = new SvgWriter(palette);
  const body = drawing.shapes.map((shape) => writer.shape(shape)).join('\n');
  const { width, height, unit } = drawing;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${n(width)}${unit}" height="${n(height)}${unit}" viewBox="0 0 ${n(width)} ${n(height)}" role="img" aria-labelledby="title desc" font-family="${FONTS}">`,
    `<title id="title">${escaped(drawing.title)}</title>`,
    `<desc id="desc">${escaped(drawing.description)}</desc>`,
    ...(writer.defs.length === 0 ? [] : [`<defs>${writer.defs.join('')}</defs>`]),
    `<rect width="${n(width)}" height="${n(height)}" fill="${palette.card}"/>`,
    body,
    '</svg>',
    '',
  ].join('\n');
}

/** A number without needless digits; what is not a number is no place on a sheet. */
function n(value: number): string {
  if (!Number.isFinite(value)) throw new SvgError(`a place of the drawing is ${value}; allowed: a number`);
  const text = value.toFixed(DECIMALS).replace(/\.?0+$/u, '');
  return text === '-0' || text === '' ? '0' : text;
}

/** A drawing that cannot be written. */
export class SvgError extends Error {
  override readonly name = 'SvgError';
}

const marks: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** Text that means nothing to XML; signs that XML forbids become a question mark. */
export const escaped = (text: string): string =>
  Array.from(text, (sign) => (isAllowed(sign.codePointAt(0)!) ? (marks[sign] ?? sign) : '?')).join('');

/** What XML 1.0 lets stand in a text: no controls but tab and ends of line, no lone surrogates, not the two signs that are no letters. */
const isAllowed = (code: number): boolean =>
  code === 0x9 ||
  code === 0xa ||
  code === 0xd ||
  (code >= 0x20 && code < 0xd800) ||
  (code > 0xdfff && code < 0xfffe) ||
  code > 0xffff;

class SvgWriter {
  readonly defs: string[] = [];
  private readonly hatches = new Map<string, string>();
  private clips = 0;
  private readonly palette: Palette;

  constructor(palette: Palette) {
    this.palette = palette;
  }

  shape(shape: Shape): string {
    switch (shape.kind) {
      case 'line':
        return `<line x1="${n(shape.from[0])}" y1="${n(shape.from[1])}" x2="${n(shape.to[0])}" y2="${n(shape.to[1])}"${this.pen(shape.pen)}/>`;
      case 'polyline': {
        const tag = shape.isClosed === true ? 'polygon' : 'polyline';
        return this.filled(shape, (look) => `<${tag} points="${shape.points.map(spot).join(' ')}"${look}/>`);
      }
      case 'path':
        return this.filled(shape, (look) => `<path d="${pathData(shape)}"${look}/>`);
      case 'rect':
        return this.filled(
          shape,
          (look) =>
            `<rect x="${n(shape.at[0])}" y="${n(shape.at[1])}" width="${n(shape.width)}" height="${n(shape.height)}"${look}/>`,
        );
      case 'circle':
        return this.filled(
          shape,
          (look) => `<circle cx="${n(shape.centre[0])}" cy="${n(shape.centre[1])}" r="${n(shape.radius)}"${look}/>`,
        );
      case 'text':
        return this.text(shape);
      case 'group': {
        const inner = shape.shapes.map((one) => this.shape(one)).join('\n');
        const clip = shape.clip === undefined ? '' : ` clip-path="url(#${this.clip(shape.clip)})"`;
        const layer = shape.layer === undefined ? '' : ` data-layer="${escaped(shape.layer)}"`;
        return `<g transform="translate(${n(shape.offset[0])} ${n(shape.offset[1])})"${layer}${clip}>\n${inner}\n</g>`;
      }
    }
  }

  private text(shape: Extract<Shape, { kind: 'text' }>): string {
    if (shape.text === '') return '';
    const width = textWidth(shape.text, shape.size, shape.weight);
    const anchor = shape.anchor === 'start' ? '' : ` text-anchor="${shape.anchor}"`;
    const halo =
      shape.halo === undefined
        ? ''
        : ` paint-order="stroke" stroke="${this.palette[shape.halo]}" stroke-width="${n(shape.size * 0.3)}" stroke-linejoin="round"`;
    const turn =
      shape.turnDeg === undefined || shape.turnDeg === 0
        ? ''
        : ` transform="rotate(${n(-shape.turnDeg)} ${n(shape.at[0])} ${n(shape.at[1])})"`;
    return `<text x="${n(shape.at[0])}" y="${n(shape.at[1])}"${turn} font-size="${n(shape.size)}" font-weight="${WEIGHTS[shape.weight]}" fill="${this.palette[shape.role]}"${anchor}${halo} textLength="${n(width)}" lengthAdjust="spacingAndGlyphs" xml:space="preserve">${escaped(shape.text)}</text>`;
  }

  /** A shape drawn once with its fill, and once more with its hatch over it. */
  private filled(look: { pen?: Pen; fill?: Role; hatch?: Hatch }, draw: (look: string) => string): string {
    const fill = look.fill === undefined ? 'none' : this.palette[look.fill];
    const pen = look.pen === undefined ? '' : this.pen(look.pen);
    if (look.hatch === undefined) return draw(` fill="${fill}"${pen}`);
    return `${draw(` fill="${fill}"`)}${draw(` fill="url(#${this.hatch(look.hatch)})"${pen}`)}`;
  }

  private pen(pen: Pen): string {
    const dash = pen.dash === undefined ? '' : ` stroke-dasharray="${pen.dash.map(n).join(' ')}"`;
    return ` stroke="${this.palette[pen.role]}" stroke-width="${n(pen.width)}"${dash}`;
  }

  private hatch(hatch: Hatch): string {
    const key = `${hatch.role} ${n(hatch.pitch)}`;
    const known = this.hatches.get(key);
    if (known !== undefined) return known;
    const id = `hatch-${this.hatches.size + 1}`;
    this.hatches.set(key, id);
    const pitch = n(hatch.pitch);
    this.defs.push(
      `<pattern id="${id}" width="${pitch}" height="${pitch}" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="${pitch}" stroke="${this.palette[hatch.role]}" stroke-width="${n(hatch.pitch * 0.36)}"/></pattern>`,
    );
    return id;
  }

  private clip(clip: { at: Spot; width: number; height: number }): string {
    const id = `clip-${++this.clips}`;
    this.defs.push(
      `<clipPath id="${id}"><rect x="${n(clip.at[0])}" y="${n(clip.at[1])}" width="${n(clip.width)}" height="${n(clip.height)}"/></clipPath>`,
    );
    return id;
  }
}

const spot = ([x, y]: Spot): string => `${n(x)},${n(y)}`;

function pathData(shape: Extract<Shape, { kind: 'path' }>): string {
  const steps = shape.steps.map((step) =>
    step.radius === undefined
      ? `L${spot(step.to)}`
      : `A${n(step.radius)} ${n(step.radius)} 0 ${step.isLarge === true ? 1 : 0} ${step.isClockwise === true ? 1 : 0} ${spot(step.to)}`,
  );
  return `M${spot(shape.start)}${steps.join('')}${shape.isClosed === true ? 'Z' : ''}`;
}
