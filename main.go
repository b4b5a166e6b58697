// Pegwright reads figures made with rubber bands on pegboards.
package main

import (
	"os"

	"pegwright/cli"
)

func main() { os.Exit(cli.Main(os.Args[1:], cli.System())) }
