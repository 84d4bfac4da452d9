import type { Shape, Spot } from './drawing.ts';
import { labelBox } from './label-boxes.ts';

export interface PictureBounds {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The room that shapes take: arcs by their spots and radii, pens by half their width. */
export function pictureBounds(shapes: readonly Shape[]): PictureBounds {
  const box = { left: Infinity, right: -Infinity, top: Infinity, bottom: -Infinity };
  const spot = ([x, y]: Spot, grow = 0): void => {
    box.left = Math.min(box.left, x - grow);
    box.right = Math.max(box.right, x + grow);
    box.top = Math.min(box.top, y - grow);
    box.bottom = Math.max(box.bottom, y + grow);
  };
  for (const shape of shapes) {
    switch (shape.kind) {
      case 'line':
        spot(shape.from, shape.pen.width / 2);
        spot(shape.to, shape.pen.width / 2);
        break;
      case 'polyline':
        for (const at of shape.points) spot(at, (shape.pen?.width ?? 0) / 2);
        break;
      case 'path':
        for (const at of [shape.start, ...shape.steps.map((step) => step.to)]) spot(at, (shape.pen?.width ?? 0) / 2);
        break;
      case 'rect':
        spot(shape.at, (shape.pen?.width ?? 0) / 2);
        spot([shape.at[0] + shape.width, shape.at[1] + shape.height], (shape.pen?.width ?? 0) / 2);
        break;
      case 'circle':
        spot(shape.centre, shape.radius + (shape.pen?.width ?? 0) / 2);
        break;
      case 'text': {
        const label = labelBox(shape);
        spot([label.left, label.top]);
        spot([label.right, label.bottom]);
        break;
      }
      case 'group': {
        const inner = pictureBounds(shape.shapes);
        spot([inner.left + shape.offset[0], inner.top + shape.offset[1]]);
        spot([inner.right + shape.offset[0], inner.bottom + shape.offset[1]]);
        break;
      }
    }
  }
  return box;
}

/** How shapes are shifted so that they begin at the top left. */
export function shiftedToCorner(shapes: readonly Shape[]) {
  const box = pictureBounds(shapes);
  return { left: -box.left, top: -box.top, width: box.right - box.left, height: box.bottom - box.top };
}
