// Redocly's rules without its command line program, which would bring React and send usage data:
// node redocly.mjs DOCUMENT CONFIGURATION
import { formatProblems, getTotals, lint, loadConfig } from "@redocly/openapi-core";

const [document, configPath] = process.argv.slice(2);
const problems = await lint({ ref: document, config: await loadConfig({ configPath }) });
const totals = getTotals(problems);
formatProblems(problems, { totals, format: "stylish", maxProblems: 50 });
console.log(`Redocly: ${totals.errors} errors, ${totals.warnings} warnings, ${totals.ignored} ignored.`);
process.exitCode = problems.length > 0 ? 1 : 0;
