/** First zero of the slope of the Bessel function J1: the first sideways wave in a round tank [-]. Mathematical constant. */
const firstWave = 1.8411837813406593;

/** Standard gravity [m/s2]; SI brochure. */
export const standardGravity = 9.80665;

const halfTurnDeg = 180;

/**
 * Angle of the free surface to the horizontal under a sideways and a vertical acceleration.
 *
 *     tan theta = a / (g + az)
 *
 * @param sidewaysMS2 - acceleration along the ground [m/s2]
 * @param verticalMS2 - acceleration upward, on top of gravity [m/s2]
 * @param gravityMS2 - gravity [m/s2]
 * @returns angle of the surface [deg]
 * @valid 0 <= sidewaysMS2 <= 100, -9 <= verticalMS2 <= 100, 0 <= gravityMS2 <= 10
 * @source fluid-statics
 * @example surfaceAngle(14.7, 0, 9.80665) // 56.292
 */
export const surfaceAngle = (sidewaysMS2: number, verticalMS2: number, gravityMS2: number): number =>
  (Math.atan2(sidewaysMS2, gravityMS2 + verticalMS2) * halfTurnDeg) / Math.PI;

/**
 * Rise of the oil at the wall of an upright tank, as long as neither floor nor lid is reached; it falls as much opposite.
 *
 *     dh = (D/2) a/g
 *
 * @param acrossMm - length of the tank along the acceleration, its diameter if round [mm]
 * @param sidewaysG - acceleration along the ground over the vertical one [g]
 * @returns rise above the level at rest [mm]
 * @valid 0 <= acrossMm <= 2000, 0 <= sidewaysG <= 5
 * @source fluid-statics
 * @example wallRise(180, 1.5) // 135
 */
export const wallRise = (acrossMm: number, sidewaysG: number): number => (acrossMm / 2) * sidewaysG;

/**
 * Volume of a hoof: what lies in an upright cylinder between its floor and a plane that cuts the floor.
 *
 *     V = s [ (2/3)(R^2 - x^2)^1.5 - x (R^2 acos(x/R) - x sqrt(R^2 - x^2)) ]
 *
 * @param radiusM - radius of the cylinder [m]
 * @param dryToM - where the plane cuts the floor, from the axis toward the high side [m]
 * @param slope - slope of the plane [-]
 * @returns volume [m3]
 * @valid 0 <= radiusM <= 2, -2 <= dryToM <= 2, 0 <= slope <= 1000
 * @source geometry
 * @example hoofVolume(0.09, 0.02, 1.5) // 0.00040107
 */
export function hoofVolume(radiusM: number, dryToM: number, slope: number): number {
  const half = Math.sqrt(radiusM ** 2 - dryToM ** 2);
  return slope * ((2 / 3) * half ** 3 - dryToM * (radiusM ** 2 * Math.acos(dryToM / radiusM) - dryToM * half));
}

/**
 * Frequency of the first sideways wave in an upright round tank.
 *
 *     w^2 = (1.8412 g / R) tanh(1.8412 h / R),  f = w / (2 pi)
 *
 * @param radiusM - radius of the tank [m]
 * @param depthM - depth of the oil [m]
 * @param pullMS2 - acceleration that holds the oil down [m/s2]
 * @returns frequency [Hz]
 * @valid 0.01 <= radiusM <= 2, 0 <= depthM <= 5, 0 <= pullMS2 <= 100
 * @source nasa-sp-106 chapters 2 and 6
 * @example roundTankFrequency(0.09, 0.3, 9.80665) // 2.254
 */
export const roundTankFrequency = (radiusM: number, depthM: number, pullMS2: number): number =>
  waveFrequency(firstWave / radiusM, depthM, pullMS2);

/**
 * Frequency of the first wave along a box-shaped tank.
 *
 *     w^2 = (pi g / L) tanh(pi h / L),  f = w / (2 pi)
 *
 * @param lengthM - length of the tank along the wave [m]
 * @param depthM - depth of the oil [m]
 * @param pullMS2 - acceleration that holds the oil down [m/s2]
 * @returns frequency [Hz]
 * @valid 0.01 <= lengthM <= 5, 0 <= depthM <= 5, 0 <= pullMS2 <= 100
 * @source nasa-sp-106 chapter 2
 * @example boxTankFrequency(0.4, 0.08, 9.80665) // 1.042
 */
export const boxTankFrequency = (lengthM: number, depthM: number, pullMS2: number): number =>
  waveFrequency(Math.PI / lengthM, depthM, pullMS2);

const waveFrequency = (wavePerM: number, depthM: number, pullMS2: number): number =>
  Math.sqrt(pullMS2 * wavePerM * Math.tanh(wavePerM * depthM)) / (2 * Math.PI);

/**
 * Damping of the first wave in a smooth upright round tank, from the loss in the laminar layers on wall and floor.
 *
 *     z = (sqrt(2 nu / w) / R) [ (x^2+1) / (4 (x^2-1)) + x (1 - h/R) / (2 sinh(2 x h/R)) ],  x = 1.8412
 *
 * @param radiusM - radius of the tank [m]
 * @param depthM - depth of the oil [m]
 * @param pullMS2 - acceleration that holds the oil down [m/s2]
 * @param viscosityM2S - kinematic viscosity [m2/s]
 * @returns share of critical damping [-]; measured ones are 1.4 times it in deep oil
 * @valid 0.01 <= radiusM <= 2, 0.001 <= depthM <= 5, 0.1 <= pullMS2 <= 100, 0 <= viscosityM2S <= 0.001
 * @source stokes-layer
 * @example roundTankDamping(0.09, 0.3, 9.80665, 1.2e-5) // 0.00664
 */
export function roundTankDamping(radiusM: number, depthM: number, pullMS2: number, viscosityM2S: number): number {
  const perRadius = depthM / radiusM;
  const square = firstWave ** 2;
  const deep = (square + 1) / (square - 1) / 4;
  const shallow = (firstWave * (1 - perRadius)) / (2 * Math.sinh(2 * firstWave * perRadius));
  const layer = Math.sqrt((2 * viscosityM2S) / (2 * Math.PI * roundTankFrequency(radiusM, depthM, pullMS2)));
  return (layer / radiusM) * (deep + shallow);
}

/** Of the measured law for smooth round tanks: logarithmic decrement 4.98 over 2 pi, and its term for the floor. */
const measuredDeep = 0.79;
const measuredFloor = 0.318;

/**
 * Damping of the first wave in a smooth upright round tank, as measured.
 *
 *     z = 0.79 sqrt(nu / sqrt(R^3 g)) [ 1 + (0.318 / sinh(x h/R)) (1 + (1 - h/R) / cosh(x h/R)) ],  x = 1.8412
 *
 * @param radiusM - radius of the tank [m]
 * @param depthM - depth of the oil [m]
 * @param pullMS2 - acceleration that holds the oil down [m/s2]
 * @param viscosityM2S - kinematic viscosity [m2/s]
 * @returns share of critical damping [-]
 * @valid 0.05 <= radiusM <= 2, 0.01 <= depthM <= 5, 0.1 <= pullMS2 <= 100, 0 <= viscosityM2S <= 0.0001
 * @source nasa-sp-106-damping
 * @example measuredRoundTankDamping(0.09, 0.3, 9.80665, 1.2e-5) // 0.00942
 */
export function measuredRoundTankDamping(
  radiusM: number,
  depthM: number,
  pullMS2: number,
  viscosityM2S: number,
): number {
  const perRadius = depthM / radiusM;
  const wave = firstWave * perRadius;
  const floor = (measuredFloor / Math.sinh(wave)) * (1 + (1 - perRadius) / Math.cosh(wave));
  return measuredDeep * Math.sqrt(viscosityM2S / Math.sqrt(radiusM ** 3 * pullMS2)) * (1 + floor);
}

/**
 * Damping of the first wave along a smooth box-shaped tank, from the loss in the laminar layers on walls and floor.
 *
 *     z = sqrt(nu / (2 w)) [ 1/L + 1/B + (pi/L) (1 - 2 h/L) / sinh(2 pi h/L) ]
 *
 * @param lengthM - length of the tank along the wave [m]
 * @param widthM - length across it [m]
 * @param depthM - depth of the oil [m]
 * @param pullMS2 - acceleration that holds the oil down [m/s2]
 * @param viscosityM2S - kinematic viscosity [m2/s]
 * @returns share of critical damping [-]; measured ones are higher
 * @valid 0.01 <= lengthM <= 5, 0.01 <= widthM <= 5, 0.001 <= depthM <= 5, 0.1 <= pullMS2 <= 100, 0 <= viscosityM2S <= 0.001
 * @source stokes-layer
 * @example boxTankDamping(0.4, 0.25, 0.08, 9.80665, 1.2e-5) // 0.00902
 */
export function boxTankDamping(
  lengthM: number,
  widthM: number,
  depthM: number,
  pullMS2: number,
  viscosityM2S: number,
): number {
  const wave = Math.PI / lengthM;
  const floor = (wave * (1 - (2 * depthM) / lengthM)) / Math.sinh(2 * wave * depthM);
  const rate = 2 * Math.PI * boxTankFrequency(lengthM, depthM, pullMS2);
  return Math.sqrt(viscosityM2S / (2 * rate)) * (1 / lengthM + 1 / widthM + floor);
}

/** Of the ring law for round tanks: its factor and how fast it fades with depth below the surface. */
const ringFactor = 2.83;
const ringFade = 4.6;

/**
 * Damping that one ring baffle adds in an upright round tank.
 *
 *     z = 2.83 exp(-4.6 d/R) (2 w/R - (w/R)^2)^1.5 sqrt(a/R)
 *
 * @param radiusM - radius of the tank [m]
 * @param widthM - width of the ring from the wall [m]
 * @param belowM - depth of the ring below the surface at rest [m]
 * @param waveM - height of the wave at the wall [m]
 * @returns share of critical damping [-], to be added to that of the smooth tank
 * @valid 0.05 <= radiusM <= 2, 0 <= widthM <= 0.5, 0 <= belowM <= 2, 0 <= waveM <= 0.5
 * @source ring-baffle-1958
 * @example ringBaffleDamping(0.09, 0.015, 0.03, 0.02) // 0.0486
 */
export const ringBaffleDamping = (radiusM: number, widthM: number, belowM: number, waveM: number): number =>
  ringFactor *
  Math.exp((-ringFade * belowM) / radiusM) *
  ((2 * widthM) / radiusM - (widthM / radiusM) ** 2) ** (3 / 2) *
  Math.sqrt(waveM / radiusM);

/**
 * Length of the pendulum that swings as the first wave in an upright round tank.
 *
 *     l = (R / 1.8412) / tanh(1.8412 h / R)
 *
 * @param radiusM - radius of the tank [m]
 * @param depthM - depth of the oil [m]
 * @returns length [m]
 * @valid 0.01 <= radiusM <= 2, 0.001 <= depthM <= 5
 * @source nasa-sp-106 table 6.1
 * @example roundTankPendulum(0.09, 0.3) // 0.0489
 */
export const roundTankPendulum = (radiusM: number, depthM: number): number =>
  radiusM / firstWave / Math.tanh((firstWave * depthM) / radiusM);

/**
 * Share of the oil that swings with the first wave in an upright round tank.
 *
 *     m1/m = 2 tanh(x h/R) / ((x h/R)(x^2 - 1)),  x = 1.8412
 *
 * @param radiusM - radius of the tank [m]
 * @param depthM - depth of the oil [m]
 * @returns share of the mass [-]
 * @valid 0.01 <= radiusM <= 2, 0.001 <= depthM <= 5
 * @source nasa-sp-106 table 6.1
 * @example roundTankSwingingShare(0.09, 0.3) // 0.136
 */
export function roundTankSwingingShare(radiusM: number, depthM: number): number {
  const wave = (firstWave * depthM) / radiusM;
  return (2 * Math.tanh(wave)) / (wave * (firstWave ** 2 - 1));
}

/**
 * How far an oscillator runs past its new rest after a step, as a share of the step.
 *
 *     o = exp(-pi z / sqrt(1 - z^2))
 *
 * @param damping - share of critical damping [-]
 * @returns overshoot [-]
 * @valid 0 <= damping <= 0.9999
 * @source damped-oscillator
 * @example stepOvershoot(0.00943) // 0.971
 */
export const stepOvershoot = (damping: number): number => Math.exp((-Math.PI * damping) / Math.sqrt(1 - damping ** 2));
