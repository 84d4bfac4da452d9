import { createHash } from 'node:crypto';
import { Hono } from 'hono';
import { z } from 'zod';
import { PICTURE_TRIANGLES, placeByPoints } from '#intake';
import { checkedScanFile } from '#shelf';
import { jsonBody, pathText, queryNumber, queryText } from './body.ts';
import type { Desk } from './desk.ts';
import { RequestFault } from './request-fault.ts';

const unit = z.enum(['mm', 'cm', 'm', 'in'], { error: 'allowed: mm, cm, m or in' });
const point = z.tuple([z.number(), z.number(), z.number()], { error: 'allowed: three numbers [x, y, z] in mm' });
const pairs = z.object({
  pairs: z
    .array(z.object({ inFile: point, inCar: point }))
    .min(3, { error: 'allowed: three points or more' })
    .max(100, { error: 'allowed: at most 100 points' }),
});

/** Scans and CAD: brought in, shown, placed. */
export function scanRoutes(desk: Desk) {
  return new Hono()
    .post('/:id/scans', async (c) => {
      const id = pathText(c, 'id');
      const file = queryText(c, 'file');
      const inUnit = unit.safeParse(c.req.query('unit') ?? 'mm');
      if (!inUnit.success) throw new RequestFault(400, 'unit: allowed: mm, cm, m or in');
      await desk.shelf.openCar(id);
      checkedScanFile(file);
      const bytes = new Uint8Array(await c.req.arrayBuffer());
      // Read before it is kept: what is no mesh does not come onto the shelf.
      const hash = createHash('sha256').update(bytes).digest('hex');
      const { mesh, notes } = await desk.scans.scan(file, inUnit.data, hash, async () => bytes);
      const row = await desk.shelf.addScan(id, file, bytes);
      // It is likely to be looked at next.
      void desk.scans.pictures(row.hash, inUnit.data, async () => mesh);
      return c.json({ row, triangles: mesh.indices.length / 3, boundsMm: boundsOf(mesh.positions), notes }, 201);
    })
    .get('/:id/scans', async (c) => c.json(await desk.shelf.scans(pathText(c, 'id'))))
    .get('/:id/mesh', async (c) => {
      const id = pathText(c, 'id');
      const file = queryText(c, 'file');
      const level = queryNumber(c, 'level', 0, PICTURE_TRIANGLES.length - 1);
      const row = (await desk.shelf.scans(id)).find((scan) => scan.file === file);
      if (row === undefined) throw new RequestFault(404, `there is no scan "${file}" in this car`);
      const inUnit = unit.parse(c.req.query('unit') ?? (await unitOf(desk, id, file)));
      const levels = await desk.scans.pictures(row.hash, inUnit, async () => {
        const { mesh } = await desk.scans.scan(file, inUnit, row.hash, () => desk.shelf.scan(id, file));
        return mesh;
      });
      return c.body(levels[level]!.slice().buffer, 200, {
        'content-type': 'application/octet-stream',
        'cache-control': 'no-cache',
      });
    })
    .post('/:id/place-by-points', jsonBody(pairs), (c) => {
      const wanted = c.req.valid('json').pairs.map(({ inFile, inCar }) => ({ scan: inFile, car: inCar }));
      return c.json(placeByPoints(wanted));
    });
}

/** The unit that the car reads the file in; millimetres where no part has taken it yet. */
async function unitOf(desk: Desk, id: string, file: string): Promise<string> {
  const { car } = await desk.shelf.openCar(id);
  for (const part of car.parts) for (const { mesh } of part.shapes) if (mesh?.file === file) return mesh.unit;
  return 'mm';
}

function boundsOf(positions: ArrayLike<number>): { min: number[]; max: number[] } {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i++) {
    const axis = i % 3;
    min[axis] = Math.min(min[axis]!, positions[i]!);
    max[axis] = Math.max(max[axis]!, positions[i]!);
  }
  return { min, max };
}
