"""Handing a mail to the mail server, and what its silence or its refusal means."""

from __future__ import annotations

import smtplib

from django.core.mail import EmailMultiAlternatives, get_connection

MAY_HAVE_LEFT = "the mail server fell silent, so it may have left"
# After these nobody knows whether the server has kept the mail (RFC 5321, section 4.5.3.2.6).
_SILENCE = (
    TimeoutError,
    ConnectionResetError,
    BrokenPipeError,
    smtplib.SMTPServerDisconnected,
)


class MayHaveLeft(Exception):
    """The server was given the mail and did not answer: to send it again might be twice."""


def hand_over(letter: EmailMultiAlternatives) -> None:
    """Give one mail to the server.

    Raises OSError where it surely has not left (no server, or it said no), and MayHaveLeft where
    the server fell silent while it had the mail. A silence before that is no server.
    """
    connection = get_connection()
    connection.open()
    try:
        letter.connection = connection
        letter.send()
    except _SILENCE as silent:
        raise MayHaveLeft(f"{type(silent).__name__}: {silent}") from silent
    finally:
        _hang_up(connection)


def _hang_up(connection: object) -> None:
    """A server that is gone by now has said all it had to say."""
    try:
        connection.close()  # type: ignore[attr-defined]
    except OSError:
        return


def is_refused_for_good(error: OSError) -> bool:
    """Whether the mail server will never take a mail to this address (a reply of 5yz)."""
    if not isinstance(error, smtplib.SMTPRecipientsRefused):
        return False
    return all(code >= 500 for code, _said in error.recipients.values())
