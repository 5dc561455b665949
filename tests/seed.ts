// Properties are tried from one seed where the tests decide what goes out, so that a run says of a change what the run before
// said; everywhere else from a new one each time, which is what finds more. fast-check prints the seed of what fails.

import { configureGlobal } from 'fast-check';

if (process.env['CI'] === 'true') configureGlobal({ seed: 20_260_414 });
