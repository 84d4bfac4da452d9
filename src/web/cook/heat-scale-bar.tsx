import type { ReactNode } from 'react';
import type { HeatCase } from '#heat';
import { useHeatUnits } from './heat-units.ts';
import { cssColour, scaleFor, shareOf, ticksOf } from './heat-scale.ts';
import { temperaturesOf } from './painted-temperatures.ts';

/** The scale that the car is painted with, its numbers under it. */
export function HeatScaleBar({ at }: { readonly at: HeatCase }): ReactNode {
  const said = useHeatUnits();
  const scale = scaleFor(temperaturesOf(at));
  const stops = Array.from({ length: 11 }, (_, i) => cssColour(i / 10)).join(', ');
  return (
    <figure className="heat-scale" aria-label="Colours of the car by temperature">
      <div className="heat-scale-bar" style={{ backgroundImage: `linear-gradient(to right, ${stops})` }} />
      <div className="heat-scale-ticks small">
        {ticksOf(scale).map((c) => (
          <span key={c} style={{ left: `${shareOf(scale, c) * 100}%` }}>
            {said.degrees(c)}
          </span>
        ))}
      </div>
      <figcaption className="small soft">
        {`The car is painted by surface temperature, ${at.case.name ?? at.case.id}${at.kind === 'soak' ? ', each at its highest' : ''}. Tap what is painted for its number.${scale.glowC === undefined ? '' : ` What is hotter than ${said.degrees(scale.toC)} lies in the last quarter of the scale.`}`}
      </figcaption>
    </figure>
  );
}
