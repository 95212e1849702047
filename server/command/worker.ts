import { examine } from './examine';

/** What each thread of `examine-all` runs. */
export default examine;
