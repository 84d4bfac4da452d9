// Does the car meet the rules as their builder entered them, by clause and year, and with what evidence?
export { conflictsOf } from './conflicts.ts';
export type {
  ClauseAnswer,
  PackAnswer,
  RuleConflict,
  RuleEvidence,
  RulesAnswer,
  RuleVerdict,
} from './rule-answer.ts';
export { type RuleFinding, ruleFindings } from './rule-findings.ts';
export { type RulesAsk, rulesOfCar } from './rules-of-car.ts';
