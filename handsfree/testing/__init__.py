"""Testing: fakes and contract checks, shipped."""
