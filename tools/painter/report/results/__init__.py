"""Other tests than tones as a report prints them: speech, middle ear, emissions, printed averages."""
