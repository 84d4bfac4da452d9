import type { Formula } from '#sources';
import { of } from '../given.ts';
import { input, inputs } from '../losses/formula-row.ts';
import { displacementPumpFlow, gearDisplacement, lobeDisplacement, slipConstant } from './displacement-pump.ts';
import { pumpInletAbsPa, suctionHeadAvailable } from './suction.ts';

const displacement = input('displacementM3', 'm3', [1e-7, 1e-2], 'displacement per turn');
const speed = input('turnsPerS', '1/s', [0, 300], 'speed of the pump');
const rise = input('risePa', 'Pa', [0, 1e8], 'pressure rise');
const tank = input('tankAbsPa', 'Pa', [1e3, 1e6], 'absolute pressure on the liquid in the tank');
const lift = input('liftM', 'm', [-10, 10], 'pump above the liquid, below zero where it is flooded');
const { bore, density, viscosity, drop } = inputs;

/** The formulas of pumps and their inlets, as the register lists them. */
export const pumpFormulas: readonly Formula[] = [
  {
    id: 'gear-displacement',
    title: 'Displacement of an external gear pump',
    equation: 'V = pi/4 (Do^2 - Di^2) L',
    inputs: [
      { ...bore, name: 'outsideM', text: 'over the teeth' },
      { ...bore, name: 'insideM', text: 'over the roots' },
      { ...bore, name: 'widthM', text: 'width of the gears' },
    ],
    result: { unit: 'm3', text: 'displacement per turn' },
    source: 'geometry',
    known: 'computed',
    example: { given: { outsideM: 0.075, insideM: 0.05, widthM: 0.025 }, gives: 6.136e-5, digits: 8 },
    evaluate: (g) => gearDisplacement(of(g, 'outsideM'), of(g, 'insideM'), of(g, 'widthM')),
  },
  {
    id: 'lobe-displacement',
    title: 'Displacement of a lobe pump',
    equation: 'V = n V_chamber',
    inputs: [
      input('chamberM3', 'm3', [1e-8, 1e-3], 'volume of one chamber'),
      input('chambersPerTurn', '-', [1, 20], 'chambers carried over per turn, both rotors together'),
    ],
    result: { unit: 'm3', text: 'displacement per turn' },
    source: 'geometry',
    known: 'computed',
    example: { given: { chamberM3: 4.5e-7, chambersPerTurn: 4 }, gives: 1.8e-6, digits: 9 },
    evaluate: (g) => lobeDisplacement(of(g, 'chamberM3'), of(g, 'chambersPerTurn')),
  },
  {
    id: 'pump-slip-constant',
    title: 'Slip constant of a displacement pump from its volumetric efficiency at one point',
    equation: 'k = (1 - eta) V n mu/dp',
    inputs: [
      displacement,
      speed,
      input('volumetricEfficiency', '-', [0.2, 0.999], 'flow over displacement times speed'),
      rise,
      viscosity,
    ],
    result: { unit: 'm3', text: 'slip constant' },
    source: 'wilson-slip',
    known: 'from-memory',
    example: {
      given: { displacementM3: 25e-6, turnsPerS: 50, volumetricEfficiency: 0.9, risePa: 4e5, viscosityPaS: 0.012 },
      gives: 3.75e-12,
      digits: 14,
    },
    evaluate: (g) =>
      slipConstant(
        of(g, 'displacementM3'),
        of(g, 'turnsPerS'),
        of(g, 'volumetricEfficiency'),
        of(g, 'risePa'),
        of(g, 'viscosityPaS'),
      ),
  },
  {
    id: 'displacement-pump-flow',
    title: 'Flow of a displacement pump with laminar slip',
    equation: 'Q = V n - k dp/mu',
    inputs: [displacement, speed, input('slipM3', 'm3', [0, 1e-9], 'slip constant'), rise, viscosity],
    result: { unit: 'm3/s', text: 'flow' },
    source: 'wilson-slip',
    known: 'from-memory',
    example: {
      given: { displacementM3: 25e-6, turnsPerS: 50, slipM3: 2e-12, risePa: 4e5, viscosityPaS: 0.012 },
      gives: 0.00118333,
      digits: 8,
    },
    evaluate: (g) =>
      displacementPumpFlow(
        of(g, 'displacementM3'),
        of(g, 'turnsPerS'),
        of(g, 'slipM3'),
        of(g, 'risePa'),
        of(g, 'viscosityPaS'),
      ),
  },
  {
    id: 'suction-head-available',
    title: "Head over the vapour pressure at a pump's inlet",
    equation: 'NPSH = (p_tank - p_vapour)/(rho g) - lift - loss',
    inputs: [
      tank,
      input('vapourAbsPa', 'Pa', [0, 1e6], 'vapour pressure'),
      density,
      lift,
      input('lossM', 'm', [0, 100], 'head lost in the line'),
      input('gravityMS2', 'm/s2', [1, 50], 'gravity'),
    ],
    result: { unit: 'm', text: 'head available' },
    source: 'hydraulic-head',
    known: 'computed',
    example: {
      given: { tankAbsPa: 101325, vapourAbsPa: 3169, densityKgM3: 997, liftM: 1.22, lossM: 1, gravityMS2: 9.81 },
      gives: 7.816,
      digits: 3,
    },
    evaluate: (g) =>
      suctionHeadAvailable(
        of(g, 'tankAbsPa'),
        of(g, 'vapourAbsPa'),
        of(g, 'densityKgM3'),
        of(g, 'liftM'),
        of(g, 'lossM'),
        of(g, 'gravityMS2'),
      ),
  },
  {
    id: 'pump-inlet-pressure',
    title: "Absolute static pressure at a pump's inlet",
    equation: 'p = p_tank - rho g lift - dp - rho V^2/2',
    inputs: [tank, density, lift, drop, input('velocityMS', 'm/s', [0, 20], 'velocity at the inlet')],
    result: { unit: 'Pa', text: 'absolute pressure' },
    source: 'hydraulic-head',
    known: 'computed',
    example: {
      given: { tankAbsPa: 98000, densityKgM3: 845, liftM: -0.25, dropPa: 4000, velocityMS: 1.99 },
      gives: 94398.5,
      digits: 1,
    },
    evaluate: (g) =>
      pumpInletAbsPa(of(g, 'tankAbsPa'), of(g, 'densityKgM3'), of(g, 'liftM'), of(g, 'dropPa'), of(g, 'velocityMS')),
  },
];
