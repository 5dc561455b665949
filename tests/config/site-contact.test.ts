import { describe, expect, it } from 'vitest';
import { readConfig } from '#config/load.ts';
import { contactOf } from '#config/site-contact.ts';
import { telLink } from '#core/site/site-contact.ts';

const contact = (keys: string) => {
  const { config } = readConfig(
    `contact: a@b.example\nlimitSets: { s: [{ element: windSpeed, atMost: { hold: 12 mph }, source: ours }] }\nsites:\n  - { id: a, name: A, at: [40, -90], limits: s, shift: { days: [mon], from: "07:00", to: "17:00" }${keys} }\n`,
    'site.yaml',
  );
  const [site] = config.sites;
  if (!site) throw new Error('no site');
  return contactOf(site);
};

describe('permit, telephone and way to a site', () => {
  it('are as written, or nothing', () => {
    expect(
      contact(', permit: { number: "0026-014", issuer: county }, phone: "555-0142 x12", directions: Mill Rd'),
    ).toEqual({
      permit: { number: '0026-014', issuer: 'county' },
      phone: '555-0142 x12',
      directions: 'Mill Rd',
    });
    expect(contact(', permit: { number: "7" }').permit).toEqual({ number: '7', issuer: null });
    expect(contact('')).toEqual({ permit: null, phone: null, directions: null });
  });

  it.each(['911', '+1 555 010 0142', '(555) 010-0142', '555.010.0142'])('%s is a number', (phone) => {
    expect(contact(`, phone: "${phone}"`).phone).toBe(phone);
  });

  it.each(['12', '1234567890123456', '+1 555 CALL', '555;ext=1', 'tel:5550142', '555-0142 x'])(
    '%s is none',
    (phone) => {
      expect(() => contact(`, phone: "${phone}"`)).toThrow(/expected a telephone number/);
    },
  );

  // RFC 3966, section 3: visual separators may be left out, an extension is the parameter `ext`.
  it.each([
    ['+1 (555) 010-0142', 'tel:+15550100142'],
    ['555-0142 x12', 'tel:5550142;ext=12'],
    ['911', 'tel:911'],
  ])('%s is called by %s', (phone, link) => {
    expect(telLink(phone)).toBe(link);
  });
});
