// The checks that want something from outside npm: named when they cannot run, and made to run in .ci/run.
import { existsSync } from 'node:fs';

const OCCT = '/usr/share/opencascade/data';

/** Each: what is checked, the Debian package that brings it, and the files that prove it is there. */
export const systemNeeds = [
  {
    check: 'real STEP and STL parts',
    debianPackage: 'occt-misc',
    files: [`${OCCT}/step/screw.step`, `${OCCT}/step/linkrods.step`, `${OCCT}/stl/motor.stl`],
  },
  {
    check: 'SVG files read by another program',
    debianPackage: 'librsvg2-bin',
    files: ['/usr/bin/rsvg-convert'],
  },
  {
    check: "shelf files and exported cars read by Python's own SQLite and zip",
    debianPackage: 'python3',
    files: ['/usr/bin/python3'],
  },
  {
    check: 'DXF files read strictly by another program',
    debianPackage: 'python3-ezdxf',
    files: ['/usr/bin/python3', '/usr/lib/python3/dist-packages/ezdxf/__init__.py'],
  },
  {
    check: 'PDF pages measured as they print',
    debianPackage: 'poppler-utils',
    files: ['/usr/bin/pdftoppm'],
  },
  {
    check: 'the screen in a real browser',
    debianPackage: 'chromium',
    files: [process.env.CHROME_PATH ?? '/usr/bin/chromium'],
  },
];

/** The need for a package, and whether it is met on this machine. */
export function systemNeed(debianPackage) {
  const need = systemNeeds.find((row) => row.debianPackage === debianPackage);
  if (!need) throw new Error(`system-needs: no row for Debian package ${debianPackage}`);
  return { ...need, isMet: need.files.every((file) => existsSync(file)) };
}
