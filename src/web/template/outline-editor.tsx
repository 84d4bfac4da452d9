import { type ReactNode, useMemo, useState } from 'react';
import type { Point2 } from '#geometry';
import type { TemplateShape } from '#panels';
import { CornerNumbers } from './corner-numbers.tsx';
import { closeUp, type Ground, wholeOf } from './ground.ts';
import { type CornerAt, cornerName, cornerOf, movedCorner } from './outline-corners.ts';
import { OutlineView } from './outline-view.tsx';

interface Wish {
  readonly ground: Ground;
  readonly shape: TemplateShape;
  readonly reference?: readonly Point2[];
  readonly label: string;
  readonly onShape: (shape: TemplateShape) => void;
  /** Stands between the picture and the corners. */
  readonly children: ReactNode;
}

/** An outline over its picture, whole and close to the chosen corner, and its corners by numbers. */
export function OutlineEditor({ ground, shape, reference = [], label, onShape, children }: Wish): ReactNode {
  const [chosen, setChosen] = useState<CornerAt | null>(null);
  // The close view stays while a corner is drawn along in it, and goes after it when it is let go.
  const [settled, setSettled] = useState(0);
  const corner = chosen === null ? undefined : cornerOf(shape, chosen);
  const name = chosen === null ? '' : cornerName(chosen);
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- only where it is when it is chosen or let go
  const near = useMemo(() => (corner === undefined ? null : closeUp(ground, corner.at)), [ground, name, settled]);
  const same = {
    ground,
    shape,
    reference,
    chosen,
    onChoose: setChosen,
    onMove: (at: CornerAt, mm: Point2) => onShape(movedCorner(shape, at, mm)),
    onSettled: () => setSettled(settled + 1),
  };
  return (
    <>
      <OutlineView {...same} box={wholeOf(ground)} label={label} />
      {children}
      <CornerNumbers
        shape={shape}
        chosen={chosen}
        onChoose={setChosen}
        onShape={(next) => {
          onShape(next);
          setSettled(settled + 1);
        }}
      >
        {near === null ? null : <OutlineView {...same} box={near} label={`Close to corner ${name}`} />}
      </CornerNumbers>
    </>
  );
}
