"""Back-ends that say sentences: aloud, into a file, in print. Each is a `ports.Voice`."""
