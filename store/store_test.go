package store_test

import (
	"testing"

	"pegwright/store/storetest"
)

func TestStore(t *testing.T) { storetest.Run(t) }
