import { describe, expect, it } from 'vitest';
import { html, textOf } from '#publish/page/html.ts';
import { homeLink, sameWith, siteLink } from '#publish/page/links.ts';

describe('the template helper', () => {
  it('escapes every sign that could leave a text or an attribute', () => {
    expect(textOf(html`<a title="${`"'<&>`}">${'<b>'}</a>`)).toBe(
      '<a title="&quot;&#39;&lt;&amp;&gt;">&lt;b&gt;</a>',
    );
  });

  it('escapes once: a template within a template stays as it is', () => {
    expect(textOf(html`<p>${html`<b>${'&'}</b>`}</p>`)).toBe('<p><b>&amp;</b></p>');
  });

  it('joins lists, also nested, and writes nothing for null', () => {
    expect(textOf(html`${['a', null, [html`<i>b</i>`, 3]]}`)).toBe('a<i>b</i>3');
  });

  it('does not take an object from data for markup', () => {
    const hostile = JSON.parse('{"markup":"<script>","Symbol(markup)":"<script>"}');
    expect(String(textOf(html`${hostile}`))).not.toContain('<script>');
  });
});

describe('links', () => {
  it('change one choice and keep the others', () => {
    expect(sameWith({ day: '2026-11-25', look: 'night' }, { lang: 'es' })).toBe(
      '?day=2026-11-25&look=night&lang=es',
    );
    expect(sameWith({ look: 'night' }, { look: 'day' })).toBe('?look=day');
    expect(sameWith({ look: 'night', units: 'si' }, { look: null })).toBe('?units=si');
  });

  it('take language, units and look to another page, but not the day', () => {
    const query = { day: '2026-11-25', lang: 'es', units: 'si', look: 'night' };
    expect(homeLink(query)).toBe('/?lang=es&units=si&look=night');
    expect(siteLink('heron-bend-2', query, '2026-11-26')).toBe(
      '/sites/heron-bend-2?day=2026-11-26&lang=es&units=si&look=night',
    );
    expect(siteLink('a/b?c', {}, null)).toBe('/sites/a%2Fb%3Fc');
  });
});
