// Mail domains by which telephone carriers used to turn a mail into a text. They are gone or going, and what still takes a
// mail drops it without a word: nobody may be warned of a fire over them.
// Sources, read in November 2026: [shutdown] sigspan.com/carrier-gateway-shutdown (13 May 2026), agreeing
// textbolt.com/blog/email-to-sms-gateway; [list] support.moonpoint.com/network/email/email-to-sms.php and
// gadgetsfeed.com/how-to-email-to-sms; [memory] from memory.

const GONE = 'was shut down';
const GOING = 'is being shut down and loses messages';

const DOMAINS: Readonly<Record<string, string>> = {
  'tmomail.net': GONE, // shutdown, December 2024
  'txt.att.net': GONE, // shutdown, 17 June 2025
  'mms.att.net': GONE, // shutdown, 17 June 2025
  'messaging.sprintpcs.com': GONE, // shutdown; list
  'pm.sprint.com': GONE, // memory
  'vtext.com': GOING, // shutdown, 31 March 2027
  'vzwpix.com': GOING, // shutdown, 31 March 2027
  'msg.fi.google.com': GOING, // list
  'email.uscc.net': GOING, // memory
  'mms.uscc.net': GOING, // memory
  'sms.cricketwireless.net': GOING, // memory
  'mms.cricketwireless.net': GOING, // memory
  'sms.myboostmobile.com': GOING, // memory
  'myboostmobile.com': GOING, // memory
  'mymetropcs.com': GOING, // memory
  'vmobl.com': GOING, // memory
  'text.republicwireless.com': GONE, // memory
  'txt.bell.ca': GOING, // memory
  'pcs.rogers.com': GOING, // memory
  'msg.telus.com': GOING, // memory
};

/** Why nothing is sent to this address; null where it is an ordinary one. */
export function carrierFault(address: string): string | null {
  const domain = address
    .slice(address.lastIndexOf('@') + 1)
    .toLowerCase()
    .replace(/\.$/, '');
  const found = Object.keys(DOMAINS).find((one) => domain === one || domain.endsWith(`.${one}`));
  if (found === undefined) return null;
  return `${found} turns mail into texts no longer: it ${DOMAINS[found]}; use a text channel`;
}
