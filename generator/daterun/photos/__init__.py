"""What a photo is: sound, how large, which way up, and where the coin's disc lies."""
