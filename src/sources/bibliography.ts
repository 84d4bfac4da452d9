import { flowSources } from './flow-sources.ts';
import { heatSources } from './heat-sources.ts';
import { plateSources } from './plate-sources.ts';
import { photoSources } from './photo-sources.ts';
import { shopSources } from './shop-sources.ts';
import type { Source } from './source.ts';

export type { Known, Source } from './source.ts';

/** The one bibliography: every row of a table and every formula names a row here. */
export const sources = [
  { id: 'builder', title: "The builder's own figure", known: 'read' },
  { id: 'common-practice', title: 'Common practice, no source', known: 'practice' },
  { id: 'from-memory', title: 'Recalled, not checked against a source', known: 'from-memory' },
  {
    id: 'generic-dimensions',
    title: 'Assumed proportions of a usual part: measure the part in your hand',
    known: 'from-memory',
  },
  { id: 'geometry', title: 'Plane and solid geometry, closed form', known: 'computed' },
  {
    id: 'si-brochure-2019',
    title: 'The International System of Units',
    edition: '9th',
    year: 2019,
    known: 'from-memory',
  },
  {
    id: 'nist-sp811',
    title: 'NIST SP 811, Guide for the use of the SI',
    year: 2008,
    place: 'appendix B',
    known: 'from-memory',
  },
  {
    id: 'faa-general',
    title: 'FAA aviation maintenance handbook, general',
    place: 'fluid lines and fittings',
    known: 'second-hand',
  },
  {
    id: 'faa-airframe',
    title: 'FAA aviation maintenance handbook, airframe',
    place: 'hydraulic lines',
    known: 'second-hand',
  },
  {
    id: 'faa-ac-43-13-1b',
    title: 'FAA AC 43.13-1B, acceptable methods: aircraft inspection and repair',
    year: 1998,
    place: 'chapters 4, 8, 9',
    known: 'read',
  },
  {
    id: 'faa-ac-43-13-1b-bends',
    title: 'FAA AC 43.13-1B, tube bend radii',
    year: 1998,
    place: 'table 9-2',
    known: 'from-memory',
  },
  {
    id: 'faa-ac-43-13-1b-supports',
    title: 'FAA AC 43.13-1B, support spacing for tubing',
    year: 1998,
    place: 'table 9-3',
    known: 'from-memory',
  },
  {
    id: 'dash-thread-tables',
    title: '37-degree flare (SAE J514, ISO 8434-2) and O-ring boss (SAE J1926, ISO 11926) threads, public tables',
    known: 'second-hand',
  },
  {
    id: 'flare-45-tables',
    title: '45-degree flare (SAE J512) threads, public tables and a forum note',
    known: 'second-hand',
  },
  { id: 'sae-j512', title: 'SAE J512, automotive tube fittings', known: 'from-memory' },
  { id: 'sae-j514', title: 'SAE J514, hydraulic tube fittings: 37-degree flare end lengths', known: 'from-memory' },
  {
    id: 'sae-j514-hex',
    title: 'SAE J514-1:2021 states in its rationale that hex sizes are going metric',
    year: 2021,
    known: 'read',
  },
  { id: 'sae-j1453', title: 'SAE J1453, O-ring face seal fittings, public tables', known: 'second-hand' },
  { id: 'sae-j516', title: 'SAE J516, hydraulic hose fittings', year: 2019, known: 'read' },
  {
    id: 'sae-j343',
    title: 'SAE J343, tests for hydraulic hose assemblies',
    year: 2016,
    place: 'rationale: free length of the bend test',
    known: 'read',
  },
  { id: 'sae-j517', title: 'SAE J517, hydraulic hose', known: 'from-memory' },
  { id: 'sae-j518', title: 'SAE J518-1, four-bolt flanges', known: 'from-memory' },
  {
    id: 'sae-j30-1998',
    title: 'SAE J30, fuel and oil hoses',
    edition: 'JUN1998',
    year: 1998,
    place: 'scope read; figures recalled',
    known: 'from-memory',
  },
  { id: 'sae-j20', title: 'SAE J20, coolant hose: no figures at hand', known: 'from-memory' },
  { id: 'asme-b1-1', title: 'ASME B1.1, unified inch screw threads: basic 60-degree profile', known: 'computed' },
  { id: 'asme-b1-20-1', title: 'ASME B1.20.1, pipe threads: E0 and E1; sizes recalled', known: 'computed' },
  { id: 'iso-228', title: 'ISO 228-1, parallel pipe threads', known: 'from-memory' },
  { id: 'iso-6149', title: 'ISO 6149-1, metric ports with O-ring', known: 'from-memory' },
  { id: 'iso-9974', title: 'ISO 9974 and ISO 1179, metric and pipe ports sealed by washer', known: 'from-memory' },
  { id: 'iso-898-1', title: 'ISO 898-1, bolts: stress area', known: 'from-memory' },
  { id: 'thin-wall-statics', title: 'Statics of a thin-walled round tube, hoop stress', known: 'computed' },
  { id: 'iso-261', title: 'ISO 68-1 and ISO 724, metric screw threads: basic profile', known: 'computed' },
  {
    id: 'army-tm-55-1520',
    title: 'US Army TM 55-1520-240-23-1',
    place: 'para 1-13, standard torque limits; same in TM 55-1730-229-12',
    known: 'read',
  },
  {
    id: 'army-tm-9-2320-364',
    title: 'US Army TM 9-2320-364-20-4',
    place: 'table 2-67, flats after seat contact',
    known: 'read',
  },
  { id: 'army-tm-1-1500', title: 'US Army TM 1-1500-204-23-2', place: 'tables 4-15 and 4-23', known: 'read' },
  { id: 'army-al0907', title: 'US Army correspondence course AL0907', known: 'read' },
  { id: 'equipment-manuals', title: 'Public equipment service manuals, makers withheld', known: 'read' },
  { id: 'npt-manual', title: 'Public manual and tables on taper pipe fittings', known: 'second-hand' },
  { id: 'navy-14105', title: 'US Navy training manual 14105', place: 'chapter 7 and hose installation', known: 'read' },
  { id: 'navy-14018', title: 'US Navy training manual 14018', place: 'table 5-2, cut-off factors', known: 'read' },
  { id: 'navy-14315', title: 'US Navy training manual 14315', place: 'chapter 10, fire sleeve', known: 'read' },
  { id: 'rma-ip-2', title: 'RMA IP-2, hose handbook', year: 2003, place: 'table 4-8', known: 'read' },
  { id: 'as568', title: 'AS568, O-ring sizes, 900 series', known: 'from-memory' },
  {
    id: 'mil-dtl-8794',
    title: 'MIL-DTL-8794F, rubber hose with textile and one wire braid',
    place: 'temperature read in 6.1; sizes recalled',
    known: 'from-memory',
  },
  { id: 'mil-dtl-27267', title: 'MIL-DTL-27267 and AS1339 class, smooth-bore PTFE hose', known: 'from-memory' },
  {
    id: 'mil-h-8891',
    title: 'MIL-H-8891A',
    place: 'table II, steel tube supports; columns of the copy broken',
    known: 'read',
  },
  {
    id: 'speedway-rules-2010',
    title: 'A national speedway rule book',
    year: 2010,
    place: 'fuel line securing',
    known: 'read',
  },
  {
    id: 'astm-d341',
    title: 'ASTM D341, viscosity-temperature equations for liquid petroleum products',
    place: 'general form and its inverse, read in a public help page',
    known: 'second-hand',
  },
  {
    id: 'astm-d2270',
    title: 'ASTM D2270, viscosity index from kinematic viscosity at 40 and 100 C',
    place: 'table 1; two public transcriptions agree in every row',
    known: 'second-hand',
  },
  {
    id: 'sae-j300',
    title: 'SAE J300, engine oil viscosity classification',
    year: 2015,
    place: 'table 1, read in public reproductions',
    known: 'second-hand',
  },
  {
    id: 'api-mpms-11-1',
    title: 'API MPMS chapter 11.1, volume correction factors',
    year: 2004,
    place: 'lubricating oils read in a public page; petrol constants recalled',
    known: 'second-hand',
  },
  {
    id: 'heat-transfer-a5',
    title: 'Incropera and DeWitt, Fundamentals of Heat and Mass Transfer',
    place: 'table A.5, engine oil (unused), read in a public transcription',
    known: 'second-hand',
  },
  {
    id: 'melinder-2010',
    title: 'Melinder, Properties of Secondary Working Fluids',
    year: 2010,
    place: 'aqueous ethylene glycol, coefficients as an open library carries them',
    known: 'second-hand',
  },
  {
    id: 'raoult',
    title: 'Ideal solution: vapour pressure of water times its mole fraction',
    known: 'computed',
  },
  {
    id: 'iapws-if97',
    title: 'IAPWS R7-97, industrial formulation for water and steam',
    year: 2012,
    place: 'regions 1 and 4, coefficients as an open library carries them',
    known: 'second-hand',
  },
  {
    id: 'iapws-viscosity',
    title: 'IAPWS R12-08, viscosity of ordinary water',
    year: 2008,
    place: 'equations 11 and 12, coefficients as an open library carries them',
    known: 'second-hand',
  },
  {
    id: 'iapws-conductivity',
    title: 'IAPWS R15-11, thermal conductivity of ordinary water',
    year: 2011,
    place: 'equations 16 and 17, coefficients as an open library carries them',
    known: 'second-hand',
  },
  {
    id: 'perry-liquids',
    title: "Perry's Chemical Engineers' Handbook, pure liquids",
    place: 'tables 2-32, 2-153, 2-313, 2-315, as an open library carries them',
    known: 'second-hand',
  },
  {
    id: 'epa-ap-42-7-1',
    title: 'US EPA AP-42 section 7.1, organic liquid storage tanks',
    place: 'vapour pressure of motor petrol; constants of ethanol; read in a public program',
    known: 'second-hand',
  },
  {
    id: 'ethanol-reid',
    title: 'Public memo on ethanol and Reid vapour pressure (2012); 40 CFR 1065.725',
    place: 'E10 + 7 kPa; E10, E15 and E20 alike; E80 to E83 41.5 to 45.1 kPa; between them straight',
    known: 'second-hand',
  },
  {
    id: 'us-standard-atmosphere',
    title: 'US Standard Atmosphere',
    year: 1976,
    place: 'lowest layer; Sutherland viscosity; conductivity',
    known: 'second-hand',
  },
  {
    id: 'ideal-gas-modes',
    title: 'Ideal gas of rigid, vibrating molecules: Einstein function of nitrogen and oxygen',
    known: 'computed',
  },
  {
    id: 'boyle-henry',
    title: "Boyle's and Henry's laws for air in a liquid",
    known: 'computed',
  },
  {
    id: 'two-phase-mixtures',
    title: 'Homogeneous two-phase flow: McAdams, Cicchitti, Dukler, Beattie and Whalley',
    place: 'as an open fluid-dynamics library carries them',
    known: 'second-hand',
  },
  {
    id: 'slow-spheres',
    title: 'Slow flow round spheres: Stokes; Hadamard and Rybczynski',
    known: 'computed',
  },
  {
    id: 'oil-under-vacuum',
    title: 'Public lubrication reference page: oil holds about a tenth of its volume of air',
    known: 'read',
  },
  {
    id: 'millar-1951-content',
    title: 'Some general theorems for non-linear systems possessing resistance',
    year: 1951,
    place: 'content and co-content; its first page read in a copy',
    known: 'second-hand',
  },
  {
    id: 'todini-1988-gradient',
    title: 'A gradient algorithm for the analysis of pipe networks',
    year: 1988,
    known: 'from-memory',
  },
  {
    id: 'amestoy-1996-minimum-degree',
    title: 'An approximate minimum degree ordering algorithm',
    year: 1996,
    known: 'from-memory',
  },
  {
    id: 'davis-2006-direct-methods',
    title: 'Direct methods for sparse linear systems',
    year: 2006,
    place: 'chapters 4, 7',
    known: 'from-memory',
  },
  {
    id: 'grassmann-1985-without-subtraction',
    title: 'Regenerative analysis and steady state distributions for Markov chains',
    year: 1985,
    place: 'elimination without subtraction',
    known: 'from-memory',
  },
  { id: 'builders-reports', title: "Builders' public reports", known: 'read' },
  ...flowSources,
  ...heatSources,
  ...plateSources,
  ...photoSources,
  ...shopSources,
] as const satisfies readonly Source[];

export type SourceId = (typeof sources)[number]['id'];

const byId: ReadonlyMap<string, Source> = new Map(sources.map((s) => [s.id, s]));

/** The bibliography's row, or undefined for the builder's own words. */
export const findSource = (id: string): Source | undefined => byId.get(id);

/** A source in one line as the screen and the book print it, with how it is known where that matters. */
export function describeSource(id: string): string {
  const row = byId.get(id);
  if (row === undefined) return id;
  const parts = [row.title, row.edition, row.year === undefined ? undefined : String(row.year), row.place];
  const mark = row.known === 'read' ? '' : ` (${row.known})`;
  return `${parts.filter((p) => p !== undefined).join(', ')}${mark}`;
}
