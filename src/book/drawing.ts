/** A place on the sheet: x to the right, y down, in the drawing's unit. */
export type Spot = readonly [x: number, y: number];

/** What a colour means; each palette says what it looks like. */
export type Role =
  | 'ink'
  | 'soft'
  | 'rule'
  | 'paper'
  | 'card'
  | 'blue'
  | 'stop'
  | 'fix'
  | 'steel'
  | 'tape'
  | 'hot'
  | 'oil'
  | 'water'
  | 'fuel'
  | 'brake'
  | 'air';

export interface Pen {
  readonly role: Role;
  readonly width: number;
  /** Lengths drawn and left out, in turn. */
  readonly dash?: readonly number[];
}

/** Lines at 45 degrees over the fill, so that a meaning does not hang on a colour alone. */
export interface Hatch {
  readonly role: Role;
  readonly pitch: number;
}

/** How an outline is drawn and filled; without a pen it has no edge, without a fill one sees through it. */
export interface Look {
  readonly pen?: Pen;
  readonly fill?: Role;
  readonly hatch?: Hatch;
}

/** A straight step to a place, or an arc of a circle to it. */
export interface PathStep {
  readonly to: Spot;
  /** Of the arc; absent = a straight step. */
  readonly radius?: number;
  /** Which way round the arc goes, as seen on the sheet. */
  readonly isClockwise?: boolean;
  /** The longer way round. */
  readonly isLarge?: boolean;
}

export type Weight = 'regular' | 'bold';
export type Anchor = 'start' | 'middle' | 'end';

export interface LineShape {
  readonly kind: 'line';
  readonly from: Spot;
  readonly to: Spot;
  readonly pen: Pen;
}
export interface PolylineShape extends Look {
  readonly kind: 'polyline';
  readonly points: readonly Spot[];
  readonly isClosed?: boolean;
}
export interface PathShape extends Look {
  readonly kind: 'path';
  readonly start: Spot;
  readonly steps: readonly PathStep[];
  readonly isClosed?: boolean;
}
export interface RectShape extends Look {
  readonly kind: 'rect';
  readonly at: Spot;
  readonly width: number;
  readonly height: number;
}
export interface CircleShape extends Look {
  readonly kind: 'circle';
  readonly centre: Spot;
  readonly radius: number;
}
/** One row of text on its baseline. */
export interface TextShape {
  readonly kind: 'text';
  readonly at: Spot;
  readonly text: string;
  /** The em: what a font size means. */
  readonly size: number;
  readonly weight: Weight;
  readonly anchor: Anchor;
  readonly role: Role;
  /** Edge round the letters, where they stand on lines. */
  readonly halo?: Role;
  /** Turned about its place, to the left as one looks at the sheet [deg]. */
  readonly turnDeg?: number;
}
/** Shapes shifted together; `clip` hides what lies outside the rectangle, which is shifted with them. */
export interface GroupShape {
  readonly kind: 'group';
  readonly offset: Spot;
  readonly shapes: readonly Shape[];
  readonly clip?: { readonly at: Spot; readonly width: number; readonly height: number };
  /** What is done along these lines, where a file keeps that apart: its layer. */
  readonly layer?: string;
}

export type Shape = LineShape | PolylineShape | PathShape | RectShape | CircleShape | TextShape | GroupShape;

/** A picture as a plain value: the screen and the paper draw the same one. */
export interface Drawing {
  /** What it shows, in a few words. */
  readonly title: string;
  /** The same picture in sentences, for whoever hears it read out. */
  readonly description: string;
  readonly unit: 'mm' | 'px';
  readonly width: number;
  readonly height: number;
  /** The first lie below the later ones. */
  readonly shapes: readonly Shape[];
}
