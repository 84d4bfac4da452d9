// Writes docs/formulas.md from the formula register.
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { formulaPage, formulaRegister } from '#answers';

writeFileSync(fileURLToPath(new URL('../docs/formulas.md', import.meta.url)), formulaPage(formulaRegister));
