"""An offline, voice-driven checklist and timer assistant for people whose hands are gloved."""

__version__ = "0.1.0"
