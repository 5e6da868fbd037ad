// The main job with the generated types and fetch: node main_job.mjs ADDRESS UNIT. Prints what it was told.
import type { components, paths } from "./api.js";

type Schemas = components["schemas"];
type Posting<Body, Answer> = {
  post: {
    requestBody: { content: { "application/json": Body } };
    responses: { 200: { content: { "application/json": Answer } } };
  };
};
type Calculation = { [Path in keyof paths]: paths[Path] extends Posting<unknown, unknown> ? Path : never }[keyof paths];
type BodyOf<Path extends Calculation> = paths[Path] extends Posting<infer Body, unknown> ? Body : never;
type AnswerOf<Path extends Calculation> = paths[Path] extends Posting<unknown, infer Answer> ? Answer : never;

class Refused extends Error {
  constructor(readonly problem: Schemas["Problem"]) {
    super(problem.detail);
  }
}

const [address, unit] = process.argv.slice(2);
if (!address || !unit) throw new Error("give the address and the unit");

async function calculate<Path extends Calculation>(path: Path, body: BodyOf<Path>): Promise<AnswerOf<Path>> {
  const response = await fetch(`${address}${path}?units=si`, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(body),
  });
  if (!response.ok) throw new Refused((await response.json()) as Schemas["Problem"]);
  return (await response.json()) as AnswerOf<Path>;
}

const assessed = await calculate("/v1/assessment", JSON.parse(unit) as Schemas["AssessmentRequest"]);
const failures = assessed.findings.filter((finding) => finding.severity === "fail");

const suction: Schemas["Pressure"] = { value: -1.2, unit: "inH2O" };
const sized = await calculate("/v1/trap-sizing", {
  pan_pressure: suction,
  pipe_size: "3/4",
  clearance_below_outlet: { value: 7, unit: "in" },
});
const drop: Schemas["Length"] = sized.results.outlet_drop;

let refusal: Schemas["Problem"] | undefined;
try {
  await calculate("/v1/trap-sizing", { pan_pressure: { ...suction, value: -500 } });
} catch (error) {
  if (!(error instanceof Refused)) throw error;
  refusal = error.problem;
}

// what the types refuse; the compiler says so where one of these would pass
// @ts-expect-error a unit that is none
const wrongUnit: Schemas["Length"] = { value: 1, unit: "inch" };
// @ts-expect-error a member that is not there
void assessed.results.trap_cheque;
// @ts-expect-error a verdict that is none
void (assessed.verdict === "failed");
void wrongUnit;

console.log(
  JSON.stringify({
    verdict: assessed.verdict,
    failures: failures.map(({ code, message, remedy }) => ({ code, message, remedy })),
    cautions: assessed.cautions.map((caution) => caution.code),
    trap: { verdict: sized.verdict, outlet_drop: drop, seal_depth: sized.results.seal_depth },
    refusal: refusal && { type: refusal.type, status: refusal.status, errors: refusal.errors },
  }),
);
