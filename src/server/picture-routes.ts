import type { Context } from 'hono';
import { Hono } from 'hono';
import { type DrawnLine, lineCard, palettes, wallMap } from '#book';
import { findLine } from '#car';
import { svgText } from '#paper';
import { catalogue } from '#standards';
import { pathText } from './body.ts';
import type { Desk } from './desk.ts';
import { RequestFault } from './request-fault.ts';

/** The card of each line and the wall map, as files to print. */
export function pictureRoutes(desk: Desk) {
  return new Hono()
    .get('/:id/cards/:file{.+[.]svg}', async (c) => {
      const id = pathText(c, 'id');
      const lineId = pathText(c, 'file').slice(0, -'.svg'.length);
      const { car } = await desk.shared(id, (await desk.shelf.openCar(id)).car);
      const line = findLine(car, lineId);
      if (line === undefined) throw new RequestFault(404, `there is no line "${lineId.slice(0, 80)}" in this car`);
      const row = (await desk.standing(id)).lines.find((standing) => standing.line === lineId);
      const way = row?.way ?? row?.tried ?? null;
      if (way === null) throw new RequestFault(404, `${lineId} has no way yet: work it out and take one`);
      const sheet = { number: car.lines.indexOf(line) + 1, of: car.lines.length };
      const wish = { isTaken: row?.way !== null, sheet, inches: c.req.query('unit') === 'in' };
      return svg(c, svgText(lineCard(car, line, way, catalogue(car.catalogue), wish), palettes.paper));
    })
    .get('/:id/wall-map.svg', async (c) => {
      const id = pathText(c, 'id');
      const { car, meshes } = await desk.shared(id, (await desk.shelf.openCar(id)).car);
      const { lines } = await desk.standing(id);
      const drawn = lines.flatMap(({ line: lineId, way }): DrawnLine[] => {
        const line = findLine(car, lineId);
        if (line === undefined || way === null) return [];
        return [{ line, bodies: way.bodies, cutsMm: way.pieces.map((piece) => piece.cutLengthMm) }];
      });
      const refused = lines.filter(({ way }) => way === null).map(({ line }) => line);
      const paper = c.req.query('paper') === 'A3' ? 'A3' : 'A2';
      const known = new Map(meshes.map(({ file, mesh }) => [file, mesh]));
      const inches = c.req.query('unit') === 'in';
      return svg(c, svgText(wallMap(car, drawn, { paper, meshes: known, refused, inches }), palettes.paper));
    });
}

/** Shown by itself a picture runs nothing and fetches nothing. */
const svg = (c: Context, text: string): Response =>
  c.body(text, 200, {
    'content-type': 'image/svg+xml; charset=utf-8',
    'content-security-policy': "default-src 'none'; style-src 'unsafe-inline'",
  });
