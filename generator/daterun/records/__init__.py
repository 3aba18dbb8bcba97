"""The keeper's files read into typed, frozen records."""
