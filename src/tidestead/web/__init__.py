"""The page: a door for a browser on this machine. It reads the request, asks the desk and shows what comes back."""
