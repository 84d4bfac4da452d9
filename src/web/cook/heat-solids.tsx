import { type ThreeEvent, useThree } from '@react-three/fiber';
import { type ReactNode, useEffect, useMemo } from 'react';
import { BufferAttribute, type BufferGeometry, Color, type Material, MeshLambertMaterial } from 'three';
import { mergeGeometries } from 'three/addons/utils/BufferGeometryUtils.js';
import type { Car, Part } from '#car';
import type { Vec } from '#geometry';
import type { HeatCase, LineHeat, PanelHeat, PartHeat, PartPlace } from '#heat';
import type { Way } from '#lines';
import { type PanelLayout, panelLayouts } from '#panels';
import { standing, wayOf } from '../bench/bench.ts';
import { open, place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import type { Colours } from '../car/colours.ts';
import type { Materials } from '../car/materials.ts';
import { PartSolids } from '../car/part-solids.tsx';
import { shapeGeometry } from '../car/shape-geometry.ts';
import { sweptGeometry } from '../car/swept.ts';
import { useCarCut } from '../cut/car-cut.ts';
import { panelGeometry } from '../cut/cut-solids.tsx';
import { partSeen } from './car-heat.ts';
import { heatAddress, heatPlace } from './heat-place.ts';
import { type HeatScale, type Rgb, scaleColour, scaleFor, shareOf } from './heat-scale.ts';
import { temperaturesOf } from './painted-temperatures.ts';

interface Wish {
  readonly at: HeatCase;
  readonly car: Car;
  readonly carId: string;
  readonly materials: Materials;
  readonly colours: Colours;
}

/** A pointer that moved more than this was turning the car [px]. */
const MOST_CLICK_PX = 5;
const untouched = (): void => undefined;

/** A colour of the scale as a light in the picture: screens take the scale's numbers as they are. */
function lightOf(share: number): Rgb {
  const made = new Color().setRGB(...scaleColour(share), 'srgb');
  return [made.r, made.g, made.b];
}

/** The car painted by surface temperature: lines along their length, panels piece by piece, parts whole. What has no number is grey. */
export function HeatSolids({ at, car, carId, materials, colours }: Wish): ReactNode {
  const judged = useSignal(standing);
  const { paper } = useSignal(place);
  const shield = useSignal(partSeen);
  const { cut } = useCarCut();
  const layouts = useMemo(() => cut?.panels ?? panelLayouts(car), [cut, car]);
  const scale = useMemo(() => scaleFor(temperaturesOf(at)), [at]);
  const invalidate = useThree((three) => three.invalidate);
  useEffect(() => invalidate(), [at, shield, layouts, judged, paper, invalidate]);
  const paints = useMemo(() => partPaints(at, scale, materials), [at, scale, materials]);
  useEffect(
    () => () => {
      for (const material of paints.values()) material.dispose();
    },
    [paints],
  );
  const about = paper.kind === 'cook' ? heatPlace(paper.id).about : undefined;
  const chosen = about?.kind === 'line' ? about.id : undefined;
  return (
    <>
      <PartSolids
        car={car}
        carId={carId}
        materials={materials}
        colours={colours}
        painted={(part: Part) => paints.get(part.id)}
      />
      {layouts.map((layout) => (
        <HotPanel
          key={`${layout.panel.id} ${layout.piece?.number ?? 0}`}
          layout={layout}
          heat={at.panels.find(({ panel }) => panel === layout.panel.id)}
          at={at}
          scale={scale}
          materials={materials}
        />
      ))}
      {at.lines.map((line) => {
        const way = wayOf(judged, line.line);
        return way === null ? null : (
          <HotLine
            key={line.line}
            line={line}
            way={way}
            at={at}
            scale={scale}
            materials={materials}
            isChosen={chosen === line.line}
          />
        );
      })}
      {at.parts.map((part) =>
        part.places === undefined ? null : (
          <HotLong key={part.part} part={part} places={part.places} at={at} scale={scale} materials={materials} />
        ),
      )}
      {shield === null ? null : <ShieldSeen part={shield} materials={materials} />}
    </>
  );
}

function partPaints(at: HeatCase, scale: HeatScale, materials: Materials): ReadonlyMap<string, Material> {
  return new Map(
    at.parts.map(({ part, surfaceC }) => {
      const material = new MeshLambertMaterial();
      material.color.setRGB(...lightOf(shareOf(scale, surfaceC)));
      material.clippingPlanes = materials.fixed.clippingPlanes;
      return [part, material] as const;
    }),
  );
}

interface LineWish {
  readonly line: LineHeat;
  readonly way: Way;
  readonly at: HeatCase;
  readonly scale: HeatScale;
  readonly materials: Materials;
  readonly isChosen: boolean;
}

function HotLine({ line, way, at, scale, materials, isChosen }: LineWish): ReactNode {
  const geometry = useMemo(
    () => sweptGeometry(way.bodies, 0, (point) => lightOf(shareOf(scale, nearestC(line.points, point)))),
    [line, way, scale],
  );
  useEffect(() => () => geometry.dispose(), [geometry]);
  const choose = (event: ThreeEvent<MouseEvent>): void => {
    if (event.delta > MOST_CLICK_PX) return;
    event.stopPropagation();
    open({ kind: 'cook', id: heatAddress({ caseId: at.case.id, about: { kind: 'line', id: line.line } }) });
  };
  return (
    <>
      <mesh geometry={geometry} material={materials.byGap} onClick={choose} />
      <mesh geometry={geometry} material={isChosen ? materials.inkChosen : materials.ink} raycast={untouched} />
      {isChosen ? <mesh geometry={geometry} material={materials.behind} raycast={untouched} renderOrder={5} /> : null}
    </>
  );
}

interface LongWish {
  readonly part: PartHeat;
  readonly places: readonly PartPlace[];
  readonly at: HeatCase;
  readonly scale: HeatScale;
  readonly materials: Materials;
}

/** It lies over the part as drawn by so much [mm]. */
const OVER_MM = 0.5;

/** A loom or a cable in the colours of its stretches. */
function HotLong({ part, places, at, scale, materials }: LongWish): ReactNode {
  const geometry = useMemo(() => {
    const points = places.map(({ atMm, c }) => ({ atMm, worstC: c }));
    const sweeps = places.map(({ fromMm, atMm, toMm, odMm }) => ({ pathMm: [fromMm, atMm, toMm], odMm }));
    return sweptGeometry(sweeps, OVER_MM, (point) => lightOf(shareOf(scale, nearestC(points, point))));
  }, [places, scale]);
  useEffect(() => () => geometry.dispose(), [geometry]);
  const choose = (event: ThreeEvent<MouseEvent>): void => {
    if (event.delta > MOST_CLICK_PX) return;
    event.stopPropagation();
    open({ kind: 'cook', id: heatAddress({ caseId: at.case.id, about: { kind: 'part', id: part.part } }) });
  };
  return <mesh geometry={geometry} material={materials.byGap} onClick={choose} />;
}

/** Temperature of the nearest place that has one. */
function nearestC(places: readonly { readonly atMm: Vec; readonly worstC: number }[], [x, y, z]: Vec): number {
  let [best, least] = [Number.NaN, Infinity];
  for (const { atMm, worstC } of places) {
    const far = (atMm[0] - x) ** 2 + (atMm[1] - y) ** 2 + (atMm[2] - z) ** 2;
    if (far < least) [best, least] = [worstC, far];
  }
  return best;
}

interface PanelWish {
  readonly layout: PanelLayout;
  readonly heat: PanelHeat | undefined;
  readonly at: HeatCase;
  readonly scale: HeatScale;
  readonly materials: Materials;
}

/** Seen through a little, so that what it covers is not lost. */
const PANEL_OPACITY = 0.4;

function HotPanel({ layout, heat, at, scale, materials }: PanelWish): ReactNode {
  const geometry = useMemo(() => paintedPanel(layout, heat, scale), [layout, heat, scale]);
  const material = useMemo(() => {
    const made = new MeshLambertMaterial({ vertexColors: true, transparent: true, opacity: PANEL_OPACITY });
    made.depthWrite = false;
    return made;
  }, []);
  material.clippingPlanes = materials.fixed.clippingPlanes;
  useEffect(
    () => () => {
      geometry?.dispose();
      material.dispose();
    },
    [geometry, material],
  );
  if (geometry === null) return null;
  const choose = (event: ThreeEvent<MouseEvent>): void => {
    if (event.delta > MOST_CLICK_PX || event.intersections.length > 1) return;
    event.stopPropagation();
    open({ kind: 'cook', id: heatAddress({ caseId: at.case.id, about: { kind: 'panel', id: layout.panel.id } }) });
  };
  return (
    <mesh
      geometry={geometry}
      material={heat === undefined ? materials.sheet : material}
      onClick={choose}
      renderOrder={2}
    />
  );
}

/** Each corner of the drawn panel in the colour of the piece that is nearest to it. */
function paintedPanel(layout: PanelLayout, heat: PanelHeat | undefined, scale: HeatScale): BufferGeometry | null {
  const made = panelGeometry(layout);
  if (made === null || heat === undefined || heat.patches.length === 0) return made;
  const at = made.getAttribute('position');
  const colours = new Float32Array(at.count * 3);
  const places = heat.patches.map(({ atMm, c }) => ({ atMm, worstC: c }));
  for (let i = 0; i < at.count; i++)
    colours.set(lightOf(shareOf(scale, nearestC(places, [at.getX(i), at.getY(i), at.getZ(i)]))), 3 * i);
  made.setAttribute('color', new BufferAttribute(colours, 3));
  return made;
}

/** A shield that is looked at, in the colour of what is chosen. */
function ShieldSeen({ part, materials }: { readonly part: Part; readonly materials: Materials }): ReactNode {
  const geometry = useMemo(
    () => mergeGeometries(part.shapes.flatMap((shape) => shapeGeometry(shape, null) ?? [])),
    [part],
  );
  useEffect(() => () => geometry.dispose(), [geometry]);
  return <mesh geometry={geometry} material={materials.chosen} raycast={untouched} />;
}
