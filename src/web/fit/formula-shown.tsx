import { type ReactNode, useEffect, useState } from 'react';
import { sayFault } from '../bench/bench.ts';
import type { ListedFormula } from '../server/answers.ts';
import { calls } from '../server/calls.ts';

let asked: Promise<readonly ListedFormula[]> | null = null;

/** The register of formulas, asked for once. */
function formulas(): Promise<readonly ListedFormula[]> {
  asked ??= calls.formulas().catch((fault: unknown) => {
    asked = null;
    throw fault;
  });
  return asked;
}

/** Formulas opened up: equation, inputs with their ranges, source, how it is known. */
export function FormulasShown({ ids }: { readonly ids: readonly string[] }): ReactNode {
  const [all, setAll] = useState<readonly ListedFormula[] | null>(null);
  useEffect(() => {
    formulas().then(setAll, sayFault);
  }, []);
  if (all === null) return <p className="soft">Looking the formulas up</p>;
  return ids.map((id) => {
    const formula = all.find((row) => row.id === id);
    return formula === undefined ? null : <Formula key={id} formula={formula} />;
  });
}

function Formula({ formula }: { readonly formula: ListedFormula }): ReactNode {
  const { title, equation, inputs, result, sourceWords, known } = formula;
  return (
    <section className="formula">
      <h3>{title}</h3>
      <pre className="equation">{equation}</pre>
      <ul className="small">
        {inputs.map((input) => (
          <li key={input.name}>
            <strong>{input.name}</strong>
            {` [${input.unit}] ${input.text}${input.range === undefined ? '' : `, ${input.range[0]} to ${input.range[1]}`}`}
          </li>
        ))}
      </ul>
      <p className="small">{`Gives ${result.text} [${result.unit}].`}</p>
      <p className="small soft">{`Source: ${sourceWords}; known: ${known}.`}</p>
    </section>
  );
}
