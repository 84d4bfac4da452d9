import { useMemo } from 'react';
import {
  BackSide,
  type Color,
  DoubleSide,
  MeshBasicMaterial,
  MeshLambertMaterial,
  type Plane,
  ShaderMaterial,
  UniformsUtils,
  Vector2,
} from 'three';
import type { Colours } from './colours.ts';

/** Width of an outline [px]. */
const OUTLINE_PX = 1.6;

/**
 * A dark skin round a solid, of the same width on the screen wherever it is: the solid's back faces pushed out along their normals.
 * Drawn lines of that width are not to be had from the graphics library.
 */
function outline(colour: Color, widthPx: number): ShaderMaterial {
  return new ShaderMaterial({
    side: BackSide,
    clipping: true,
    uniforms: UniformsUtils.merge([
      { colour: { value: colour }, widthPx: { value: widthPx }, screenPx: { value: new Vector2(800, 600) } },
    ]),
    vertexShader: `
      #include <clipping_planes_pars_vertex>
      uniform float widthPx;
      uniform vec2 screenPx;
      void main() {
        vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
        vec4 onScreen = projectionMatrix * mvPosition;
        vec3 outward = normalize(normalMatrix * normal);
        vec2 away = length(outward.xy) < 1e-4 ? vec2(0.0) : normalize(outward.xy);
        onScreen.xy += away * widthPx * 2.0 / screenPx * onScreen.w;
        gl_Position = onScreen;
        #include <clipping_planes_vertex>
      }`,
    fragmentShader: `
      #include <clipping_planes_pars_fragment>
      uniform vec3 colour;
      void main() {
        #include <clipping_planes_fragment>
        gl_FragColor = vec4(colour, 1.0);
        #include <colorspace_fragment>
      }`,
  });
}

/**
 * Paper shaded softly by a lamp; inside faces, which a cut lays open, flat in the colour of a cut. Stripes at 45 degrees where something
 * must be told apart without its colour.
 */
function paper(
  colour: Color,
  cut: Color,
  stripe?: { readonly colour: Color; readonly everyPx: number },
): MeshLambertMaterial {
  const made = new MeshLambertMaterial({ color: colour, side: DoubleSide });
  made.onBeforeCompile = (shader) => {
    shader.uniforms['cutColour'] = { value: cut };
    shader.uniforms['stripeColour'] = { value: stripe?.colour ?? colour };
    shader.uniforms['everyPx'] = { value: stripe?.everyPx ?? 0 };
    shader.fragmentShader = shader.fragmentShader
      .replace(
        'void main() {',
        'uniform vec3 cutColour;\nuniform vec3 stripeColour;\nuniform float everyPx;\nvoid main() {',
      )
      .replace(
        '#include <opaque_fragment>',
        `if (!gl_FrontFacing) outgoingLight = cutColour;
         if (everyPx > 0.0 && mod(gl_FragCoord.x - gl_FragCoord.y, everyPx) < everyPx * 0.28) outgoingLight = stripeColour;
         #include <opaque_fragment>`,
      );
  };
  made.customProgramCacheKey = () => 'paper';
  return made;
}

export interface Materials {
  readonly fixed: MeshLambertMaterial;
  readonly hot: MeshLambertMaterial;
  readonly moving: MeshLambertMaterial;
  readonly sheet: MeshLambertMaterial;
  readonly chosen: MeshLambertMaterial;
  readonly hose: MeshLambertMaterial;
  readonly byGap: MeshLambertMaterial;
  readonly faint: MeshLambertMaterial;
  readonly ghost: MeshBasicMaterial;
  readonly behind: MeshBasicMaterial;
  readonly led: MeshBasicMaterial;
  /** What stands out, where something stands before it. */
  readonly through: MeshBasicMaterial;
  readonly ink: ShaderMaterial;
  readonly inkHot: ShaderMaterial;
  readonly inkChosen: ShaderMaterial;
}

/** One of each for the whole picture; a cut through it clips them all. */
export function useMaterials(colours: Colours, cut: Plane | null): Materials {
  const made = useMemo(() => materialsOf(colours), [colours]);
  for (const material of Object.values(made)) material.clippingPlanes = cut === null ? [] : [cut];
  return made;
}

function materialsOf(colours: Colours): Materials {
  const { card, ink, red, blue, steel, soft, paper: ground, tape } = colours;
  const mixed = (a: Color, b: Color, share: number): Color => a.clone().lerp(b, share);
  const inside = mixed(ink, ground, 0.45);
  const sheet = paper(mixed(steel, ground, 0.4), inside);
  sheet.transparent = true;
  sheet.opacity = 0.32;
  sheet.depthWrite = false;
  const faint = paper(mixed(soft, ground, 0.5), inside);
  faint.transparent = true;
  faint.opacity = 0.28;
  faint.depthWrite = false;
  const behind = new MeshBasicMaterial({ vertexColors: true, transparent: true, opacity: 0.8 });
  behind.depthTest = false;
  behind.depthWrite = false;
  const byGap = paper(card.clone().set('#ffffff'), inside);
  byGap.vertexColors = true;
  byGap.customProgramCacheKey = () => 'paper by gap';
  return {
    fixed: paper(mixed(steel, card, colours.isDark ? 0 : 0.42), inside),
    hot: paper(mixed(red, card, 0.68), inside, { colour: red, everyPx: 11 }),
    moving: paper(mixed(tape, card, 0.1), inside, { colour: mixed(tape, ink, 0.35), everyPx: 22 }),
    sheet,
    chosen: paper(mixed(blue, card, 0.3), inside),
    hose: paper(mixed(soft, card, colours.isDark ? 0.15 : 0.35), inside),
    byGap,
    ghost: new MeshBasicMaterial({ color: blue, transparent: true, opacity: 0.22, depthWrite: false }),
    faint,
    behind,
    led: new MeshBasicMaterial({ color: blue, transparent: true, opacity: 0.55, depthWrite: false }),
    through: new MeshBasicMaterial({
      color: blue,
      transparent: true,
      opacity: 0.3,
      depthTest: false,
      depthWrite: false,
    }),
    ink: outline(ink, OUTLINE_PX),
    inkHot: outline(red, OUTLINE_PX * 1.4),
    inkChosen: outline(blue, OUTLINE_PX * 1.8),
  };
}
