/** How a command ends; the outside world reads these. */
export const exitCode = {
  done: 0,
  /** Done, and there is a stop snag or a line without a feasible way. */
  stop: 1,
  /** Wrong command, or a file that cannot be read or is not valid. */
  wrong: 2,
  internalFault: 3,
  interrupted: 130,
} as const;
