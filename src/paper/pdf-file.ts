import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import type PdfKit from 'pdfkit';
import type { Drawing, Look, Palette, PathShape, Pen, Shape, Spot, TextShape } from '#book';

/** The bundled font as whole files of one weight each: what a PDF can take its letters from. */
const FONTS = {
  regular: '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf',
  bold: '@expo-google-fonts/source-sans-3/700Bold/SourceSans3_700Bold.ttf',
} as const;
const POINTS_PER_MM = 72 / 25.4;
/** The same drawing gives the same bytes: no file says when it was made. */
const MADE = new Date(0);
/** An arc of a circle is drawn as cubic curves of this angle at most: they stand off it by 4e-8 of its radius [rad]. */
const CURVE_STEP = Math.PI / 8;

type Document = InstanceType<typeof PdfKit>;

export interface PdfWish {
  readonly title: string;
  readonly palette: Palette;
}

/** Drawings in millimetres as the pages of one PDF, each page of its drawing's size, the letters embedded. */
export async function pdfBytes(drawings: readonly Drawing[], wish: PdfWish): Promise<Uint8Array> {
  const { default: PdfDocument } = await import('pdfkit');
  const [regular, bold] = await Promise.all([fontFile(FONTS.regular), fontFile(FONTS.bold)]);
  const document = new PdfDocument({
    autoFirstPage: false,
    compress: true,
    pdfVersion: '1.7',
    lang: 'en',
    displayTitle: true,
    info: { Title: wish.title, Creator: 'Fairlead', Producer: 'Fairlead', CreationDate: MADE, ModDate: MADE },
  });
  const chunks: Uint8Array[] = [];
  const done = new Promise<void>((resolve, reject) => {
    document.on('data', (chunk: Uint8Array) => void chunks.push(chunk));
    document.on('end', () => resolve());
    document.on('error', reject);
  });
  document.registerFont('regular', regular);
  document.registerFont('bold', bold);
  const writer = new PdfWriter(document, wish.palette);
  for (const drawing of drawings) {
    const scale = drawing.unit === 'mm' ? POINTS_PER_MM : 0.75;
    document.addPage({ size: [drawing.width * scale, drawing.height * scale], margin: 0 });
    document.save().scale(scale);
    for (const shape of drawing.shapes) writer.shape(shape);
    document.restore();
  }
  document.end();
  await done;
  return Buffer.concat(chunks);
}

const fontFile = (name: string): Promise<Buffer> => readFile(fileURLToPath(import.meta.resolve(name)));

class PdfWriter {
  private readonly document: Document;
  private readonly palette: Palette;

  constructor(document: Document, palette: Palette) {
    this.document = document;
    this.palette = palette;
  }

  shape(shape: Shape): void {
    const { document } = this;
    switch (shape.kind) {
      case 'line':
        this.drawn({ pen: shape.pen }, () => document.moveTo(...shape.from).lineTo(...shape.to));
        return;
      case 'polyline':
        this.drawn(shape, () => {
          for (const [i, at] of shape.points.entries())
            if (i === 0) document.moveTo(...at);
            else document.lineTo(...at);
          if (shape.isClosed === true) document.closePath();
        });
        return;
      case 'path':
        this.drawn(shape, () => this.path(shape));
        return;
      case 'rect':
        this.drawn(shape, () => document.rect(shape.at[0], shape.at[1], shape.width, shape.height));
        return;
      case 'circle':
        this.drawn(shape, () => {
          const [x, y] = shape.centre;
          document.moveTo(x + shape.radius, y);
          this.curves([x, y], shape.radius, 0, 2 * Math.PI);
          document.closePath();
        });
        return;
      case 'text':
        this.text(shape);
        return;
      case 'group':
        document.save().translate(...shape.offset);
        if (shape.clip !== undefined)
          document.rect(shape.clip.at[0], shape.clip.at[1], shape.clip.width, shape.clip.height).clip();
        for (const one of shape.shapes) this.shape(one);
        document.restore();
    }
  }

  /** Fills, hatches, then draws the edge; the shape is laid anew each time, as PDF forgets it. */
  private drawn(look: Look, lay: () => void): void {
    const { document, palette } = this;
    if (look.fill !== undefined) {
      lay();
      document.fill(palette[look.fill]);
    }
    if (look.hatch !== undefined) {
      document.save();
      lay();
      document.clip();
      this.hatch(look.hatch.pitch, palette[look.hatch.role]);
      document.restore();
    }
    if (look.pen === undefined) return;
    lay();
    this.pen(look.pen);
  }

  private pen(pen: Pen): void {
    const { document } = this;
    document.lineWidth(pen.width);
    if (pen.dash === undefined) document.undash();
    else document.dash(pen.dash[0]!, { space: pen.dash[1] ?? pen.dash[0]! });
    if (pen.dash !== undefined && pen.dash.length > 2)
      // The library knows one length and one gap; the page takes as many as there are.
      document.addContent(`[${pen.dash.join(' ')}] 0 d`);
    document.stroke(this.palette[pen.role]);
  }

  private hatch(pitch: number, colour: string): void {
    const { document } = this;
    const { width, height } = document.page;
    const far = width + height;
    document.lineWidth(pitch * 0.36).undash();
    for (let at = -far; at <= far; at += pitch * Math.SQRT2) document.moveTo(at, 0).lineTo(at + far, far);
    document.stroke(colour);
  }

  private path(shape: PathShape): void {
    const { document } = this;
    let from = shape.start;
    document.moveTo(...from);
    for (const step of shape.steps) {
      if (step.radius === undefined) document.lineTo(...step.to);
      else {
        const arc = arcBetween(from, step.to, step.radius, step.isClockwise === true, step.isLarge === true);
        this.curves(arc.centre, arc.radius, arc.from, arc.through);
      }
      from = step.to;
    }
    if (shape.isClosed === true) document.closePath();
  }

  /** An arc as cubic curves, from where the path stands; angles turn as the page's y goes down. */
  private curves([x, y]: Spot, radius: number, from: number, through: number): void {
    const parts = Math.max(1, Math.ceil(Math.abs(through) / CURVE_STEP));
    const step = through / parts;
    const handle = (4 / 3) * Math.tan(step / 4) * radius;
    for (let k = 0; k < parts; k++) {
      const [a, b] = [from + k * step, from + (k + 1) * step];
      const [ca, sa, cb, sb] = [Math.cos(a), Math.sin(a), Math.cos(b), Math.sin(b)];
      this.document.bezierCurveTo(
        x + radius * ca - handle * sa,
        y + radius * sa + handle * ca,
        x + radius * cb + handle * sb,
        y + radius * sb - handle * cb,
        x + radius * cb,
        y + radius * sb,
      );
    }
  }

  private text(shape: TextShape): void {
    const { document, palette } = this;
    if (shape.text === '') return;
    document.font(shape.weight).fontSize(shape.size);
    const share = { start: 0, middle: 0.5, end: 1 }[shape.anchor];
    const x = shape.at[0] - share * document.widthOfString(shape.text);
    const y = shape.at[1];
    document.save();
    if (shape.turnDeg !== undefined && shape.turnDeg !== 0)
      document.rotate(-shape.turnDeg, { origin: [shape.at[0], shape.at[1]] });
    const options = { lineBreak: false, baseline: 'alphabetic' } as const;
    if (shape.halo !== undefined) {
      document
        .undash()
        .lineWidth(shape.size * 0.3)
        .lineJoin('round')
        .strokeColor(palette[shape.halo]);
      document.text(shape.text, x, y, { ...options, stroke: true, fill: false });
    }
    document.fillColor(palette[shape.role]).text(shape.text, x, y, options);
    document.restore();
  }
}

/** The circle of an arc that goes from one place to another, as the page's y goes down. */
function arcBetween(from: Spot, to: Spot, radius: number, isClockwise: boolean, isLarge: boolean) {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const chord = Math.hypot(dx, dy);
  const own = Math.max(radius, chord / 2);
  const off = Math.sqrt(Math.max(0, own * own - (chord * chord) / 4)) * (isClockwise === isLarge ? 1 : -1);
  const centre: Spot = [
    (from[0] + to[0]) / 2 + (chord === 0 ? 0 : (dy / chord) * off),
    (from[1] + to[1]) / 2 - (chord === 0 ? 0 : (dx / chord) * off),
  ];
  const start = Math.atan2(from[1] - centre[1], from[0] - centre[0]);
  let through = Math.atan2(to[1] - centre[1], to[0] - centre[0]) - start;
  if (isClockwise && through < 0) through += 2 * Math.PI;
  if (!isClockwise && through > 0) through -= 2 * Math.PI;
  return { centre, radius: own, from: start, through };
}
