import type { ReactNode } from 'react';
import type { Point2 } from '#geometry';
import type { TemplateShape } from '#panels';
import { Key } from '../frame/key.tsx';
import { TypedLength } from '../tape/typed-length.tsx';
import {
  allCorners,
  bowMm,
  canLose,
  type CornerAt,
  cornerName,
  cornerOf,
  isSameCorner,
  movedCorner,
  withBow,
  withCorner,
  withoutCorner,
  withoutOpening,
} from './outline-corners.ts';

interface Wish {
  readonly shape: TemplateShape;
  readonly chosen: CornerAt | null;
  readonly onChoose: (at: CornerAt | null) => void;
  readonly onShape: (shape: TemplateShape) => void;
  /** Close to the chosen corner. */
  readonly children: ReactNode;
}

/** Every corner by its name; the chosen one by numbers, with the side that leaves it. */
export function CornerNumbers({ shape, chosen, onChoose, onShape, children }: Wish): ReactNode {
  return (
    <section className="tape-section" aria-label="Corners of the template">
      <h2>Correct it</h2>
      <p className="small soft">
        Choose a corner: draw it along, move it by arrow keys (half a millimetre; with Shift 5), or type where it is.
        Numbers run from the lowest and leftmost of the outline, along the reference.
      </p>
      <div className="template-names" role="group" aria-label="Corners">
        {allCorners(shape).map((at) => (
          <Key key={cornerName(at)} aria-pressed={isSameCorner(at, chosen)} onClick={() => onChoose(at)}>
            {cornerName(at)}
          </Key>
        ))}
      </div>
      {children}
      {chosen === null || cornerOf(shape, chosen) === undefined ? null : (
        <Chosen key={cornerName(chosen)} shape={shape} at={chosen} onChoose={onChoose} onShape={onShape} />
      )}
    </section>
  );
}

interface ChosenWish {
  readonly shape: TemplateShape;
  readonly at: CornerAt;
  readonly onChoose: (at: CornerAt | null) => void;
  readonly onShape: (shape: TemplateShape) => void;
}

function Chosen({ shape, at, onChoose, onShape }: ChosenWish): ReactNode {
  const [x, y] = cornerOf(shape, at)!.at;
  const place = (now: Point2): void => onShape(movedCorner(shape, at, now));
  return (
    <>
      <div className="facing-tip">
        <TypedLength label={`Corner ${cornerName(at)}: along`} mm={x} onMm={(mm) => place([mm, y])} />
        <TypedLength label={`Corner ${cornerName(at)}: up`} mm={y} onMm={(mm) => place([x, mm])} />
        <TypedLength
          label="Side to the next bows out by"
          mm={bowMm(shape, at)}
          onMm={(mm) => onShape(withBow(shape, at, mm))}
        />
      </div>
      <p className="small soft">
        The bow is the height of the arc over its straight line, 0 where it is straight, minus where it runs into the
        card.
      </p>
      <div className="keys">
        <Key onClick={() => onShape(withCorner(shape, at))}>One more corner after it</Key>
        {canLose(shape, at) ? (
          <Key
            onClick={() => {
              onChoose(null);
              onShape(withoutCorner(shape, at));
            }}
          >
            Take it out
          </Key>
        ) : null}
        {at.ring === 0 ? null : (
          <Key
            onClick={() => {
              onChoose(null);
              onShape(withoutOpening(shape, at.ring));
            }}
          >
            No opening there
          </Key>
        )}
      </div>
    </>
  );
}
