import { demoMeshes, demoScene, takenDemo } from '../test/heat/demo-bay.ts';
import { exchangeFactors } from '#heat';
import { rayScene } from '#geometry';
const car = takenDemo();
const t = (n: string, f: any) => {
  const a = process.cpuUsage().user;
  const r = f();
  console.log(n, ((process.cpuUsage().user - a) / 1000).toFixed(0), 'ms');
  return r;
};
export default {
  title: 'x',
  run: async () => {
    const meshes = await demoMeshes(car);
    const s = t('scene', () => demoScene(car, meshes));
    const by: any = {};
    s.patches.forEach((p: any) => {
      const k = s.surfaces[p.surface].kind;
      by[k] = (by[k] ?? 0) + 1;
    });
    console.log(s.surfaces.length, s.patches.length, by);
    const rs = t('rayScene', () => rayScene(s.surfaces));
    t('rayScene again', () => rayScene(s.surfaces));
    console.log(
      'nodes',
      rs.nodes.length / 16,
      'tri',
      rs.triangles.length / 9,
      'round',
      rs.roundItems.length,
      'box',
      rs.boxItems.length,
    );
    for (const n of [64]) {
      const e: any = t('exchange ' + n, () => exchangeFactors({ ...s, raysPerPatch: n, seed: 1 }));
      console.log(
        e.raysShot,
        e.flights,
        e.to.length,
        'covered mean',
        e.covered.reduce((a: number, b: number) => a + b, 0) / e.covered.length,
      );
    }
    return { headers: [''], rows: [] };
  },
};
