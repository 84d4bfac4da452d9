// The rival: for each class of thing, cells touched by its triangles are marked, then the exact Euclidean distance transform in three
// passes (lower envelope of parabolas along each axis, Felzenszwalb and Huttenlocher 2012). A worker: takes jobs, posts back.
import { parentPort } from 'node:worker_threads';

const FAR = 1e20;

function marked({ positions, indices }, { min, cellMm, counts }, out) {
  const [nx, ny, nz] = counts;
  out.fill(FAR);
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [indices[t] * 3, indices[t + 1] * 3, indices[t + 2] * 3];
    const ux = positions[b] - positions[a];
    const uy = positions[b + 1] - positions[a + 1];
    const uz = positions[b + 2] - positions[a + 2];
    const vx = positions[c] - positions[a];
    const vy = positions[c + 1] - positions[a + 1];
    const vz = positions[c + 2] - positions[a + 2];
    const longest = Math.sqrt(Math.max(ux * ux + uy * uy + uz * uz, vx * vx + vy * vy + vz * vz));
    const steps = Math.max(1, Math.ceil((2 * longest) / cellMm));
    for (let i = 0; i <= steps; i++) {
      for (let j = 0; j <= steps - i; j++) {
        const x = Math.round((positions[a] + (ux * i + vx * j) / steps - min[0]) / cellMm);
        const y = Math.round((positions[a + 1] + (uy * i + vy * j) / steps - min[1]) / cellMm);
        const z = Math.round((positions[a + 2] + (uz * i + vz * j) / steps - min[2]) / cellMm);
        if (x >= 0 && y >= 0 && z >= 0 && x < nx && y < ny && z < nz) out[(z * ny + y) * nx + x] = 0;
      }
    }
  }
}

function alongAxis(grid, n, stride, lines, startOf) {
  const f = new Float64Array(n);
  const v = new Int32Array(n);
  const z = new Float64Array(n + 1);
  for (let line = 0; line < lines; line++) {
    const start = startOf(line);
    for (let q = 0; q < n; q++) f[q] = grid[start + q * stride];
    let k = 0;
    v[0] = 0;
    z[0] = -Infinity;
    z[1] = Infinity;
    for (let q = 1; q < n; q++) {
      let s = (f[q] + q * q - (f[v[k]] + v[k] * v[k])) / (2 * q - 2 * v[k]);
      while (s <= z[k]) {
        k--;
        s = (f[q] + q * q - (f[v[k]] + v[k] * v[k])) / (2 * q - 2 * v[k]);
      }
      k++;
      v[k] = q;
      z[k] = s;
      z[k + 1] = Infinity;
    }
    k = 0;
    for (let q = 0; q < n; q++) {
      while (z[k + 1] < q) k++;
      grid[start + q * stride] = (q - v[k]) * (q - v[k]) + f[v[k]];
    }
  }
}

/** Slack of one class at every corner of the grid. */
export function classSlack(mesh, frame, keepOffMm, out) {
  const [nx, ny, nz] = frame.counts;
  marked(mesh, frame, out);
  alongAxis(out, nx, 1, ny * nz, (line) => line * nx);
  alongAxis(out, ny, nx, nx * nz, (line) => Math.floor(line / nx) * nx * ny + (line % nx));
  alongAxis(out, nz, nx * ny, nx * ny, (line) => line);
  for (let i = 0; i < out.length; i++) out[i] = Math.sqrt(out[i]) * frame.cellMm - keepOffMm;
}

parentPort?.on('message', ({ classes, frame, grids }) => {
  classes.forEach(({ mesh, keepOffMm }, i) => classSlack(mesh, frame, keepOffMm, grids[i]));
  for (let i = 1; i < grids.length; i++) {
    const [into, from] = [grids[0], grids[i]];
    for (let k = 0; k < into.length; k++) if (from[k] < into[k]) into[k] = from[k];
  }
  parentPort.postMessage('done');
});
