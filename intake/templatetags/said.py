"""``{{ sentence|said }}``: a sentence of the domain in the page's language."""

from __future__ import annotations

from django import template

from intake import said as words

register = template.Library()


@register.filter
def said(text: object) -> str:
    """In the page's language; escaped by the page like any other text."""
    return words.said(text)


@register.filter
def asked(slug: str, usual: object) -> str:
    """``{{ slug|asked:usual }}``: a question as the desk words it now, else as usual."""
    return words.asked(slug, usual)
